import { describe, expect, it } from 'vitest';
import {
  figure,
  finishPdf,
  openPdf,
  type PdfSpec,
  paragraph,
  rule,
  sideBySide,
  space,
} from '#core/documents/pdfKit.ts';
import { table } from '#core/documents/pdfTable.ts';
import { marksOf, pdfText, sizeOf } from '../../helpers/pdfText.ts';

const spec: PdfSpec = {
  title: 'A sheet',
  author: 'Emberwick Paintwork',
  language: 'en-GB',
  paper: 'A4',
  createdMs: Date.UTC(2026, 10, 25, 9),
  foot: 'Emberwick Paintwork',
  pageWord: (page, of) => `page ${page} of ${of}`,
};

async function sample(rows: number, paper: PdfSpec['paper'] = 'A4'): Promise<Uint8Array> {
  const pdf = openPdf({ ...spec, paper });
  paragraph(pdf, 'Łucja Őszi-Žagar, 6 µm of Жуков', { style: 'title', tag: 'H1' });
  sideBySide(pdf, [
    {
      lines: [
        { text: 'For', style: 'small' },
        { text: 'Marit Vane', style: 'strong' },
      ],
      share: 1,
    },
    { lines: [{ text: 'Vehicle', style: 'small' }, { text: 'Velloy Merrin' }], share: 2 },
  ]);
  rule(pdf, 1);
  space(pdf, 8);
  const line = (i: number) => ({ cells: [`Line ${i}`, '2.0', '170.00'] });
  table(
    pdf,
    [
      { title: 'Work', share: 5 },
      { title: 'hours', share: 1, align: 'right' },
      { title: '€', share: 1, align: 'right' },
    ],
    Array.from({ length: rows }, (_, i) => line(i + 1)),
  );
  figure(pdf, 40, 'a grey square', (doc, box) => {
    doc.rect(box.x, box.y, 30, 30).fill('#888');
  });
  return finishPdf(pdf);
}

describe('the drawing kit of all printed documents', () => {
  it('gives the same bytes for the same input', async () => {
    const [first, second] = [await sample(3), await sample(3)];
    expect(Buffer.from(first).equals(Buffer.from(second))).toBe(true);
  });

  it('prints Latin letters with any mark, micro signs and Cyrillic so that they can be read back', async () => {
    const pages = await pdfText(await sample(3));
    expect(pages.join(' ')).toContain('Łucja Őszi-Žagar, 6 µm of Жуков');
  });

  it('repeats the head of a table on each page and numbers the pages', async () => {
    const pages = await pdfText(await sample(90));
    expect(pages.length).toBe(3);
    for (const [i, page] of pages.entries()) {
      expect(page).toContain('hours');
      expect(page).toContain(`page ${i + 1} of 3`);
    }
    expect(pages.join(' ')).toContain('Line 90');
  });

  it('is set on Letter paper when the shop uses it', async () => {
    expect(await sizeOf(await sample(1, 'Letter'))).toEqual([612, 792]);
  });

  it('is tagged for readers that speak it, with its language and title', async () => {
    const marks = await marksOf(await sample(2));
    expect(marks.title).toBe('A sheet');
    expect(marks.language).toBe('en-GB');
    expect(marks.roles).toEqual(expect.arrayContaining(['H1', 'P', 'Table', 'TR', 'TH', 'TD', 'Figure']));
  });

  it('embeds the faces it prints and none that it does not', async () => {
    const text = Buffer.from(await sample(1)).toString('latin1');
    expect(text).toContain('AtkinsonHyperlegibleNext');
    expect(text).not.toContain('Helvetica');
    expect(text).not.toContain('Vietnamese');
  });
});
