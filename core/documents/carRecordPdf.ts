import { count, film } from '../shared/text/format.ts';
import { amountText, type PaperManner } from '../shared/text/manner.ts';
import { say } from '../shared/text/say.ts';
import { panelName } from '../shared/text/sayError.ts';
import { exact } from '../shared/text/when.ts';
import type { PartyView, SellerView } from '../shared/views/billing.ts';
import type { CarRecordView, JobView } from '../shared/views/bookings.ts';
import type { CardPanel } from '../shared/views/card.ts';
import { careSentences } from './aftercare.ts';
import { mannerOf, openLetter, partyLines, small, vehicleLines } from './letter.ts';
import {
  figure,
  finishPdf,
  heading,
  LEADING,
  type Pdf,
  paragraph,
  STYLES,
  sideBySide,
  space,
} from './pdfKit.ts';
import { type TableRow, table } from './pdfTable.ts';
import { drawLine } from './pdfText.ts';

/** What is printed of a car that came or went. */
export type CarRecordPaper = {
  readonly seller: SellerView;
  readonly customer: PartyView;
  readonly job: JobView;
  readonly record: CarRecordView;
  /** Panels whose film was read at this visit. */
  readonly panels: readonly CardPanel[];
  /** What polishing was agreed not to fix, as sentences. */
  readonly stays: readonly string[];
};

/**
 * The record of a car that came or went, to sign and to take along: keys, mileage, belongings, damage; at the
 * handover also what was done, what stays, the film that is left and how fresh work is looked after.
 */
export async function carRecordPdf(paper: CarRecordPaper): Promise<Uint8Array> {
  const { seller, customer, job, record } = paper;
  const manner = mannerOf(seller);
  const { locale } = manner;
  const pdf = openLetter(seller, {
    title: say(locale, `doc.record.${record.kind}`),
    under: [exact(manner, record.atMs), say(locale, 'doc.job', { number: job.number })],
    createdMs: record.atMs,
  });
  sideBySide(pdf, [
    { share: 1, lines: partyLines(say(locale, 'doc.for'), customer, locale) },
    { share: 1, lines: vehicleLines(job.vehicle, locale) },
  ]);
  space(pdf, 12);
  table(pdf, FACT_COLUMNS, factRows(record, manner));
  drawDamage(pdf, paper, manner);
  if (record.kind === 'handover') drawHandover(pdf, paper, manner);
  drawWord(pdf, record, manner);
  return finishPdf(pdf);
}

const FACT_COLUMNS = [
  { title: '', share: 3 },
  { title: '', share: 9 },
];

function factRows(record: CarRecordView, manner: PaperManner): TableRow[] {
  const { locale } = manner;
  const { mileage, mileageUnit, picturesRecord, picturesPublish } = record;
  const pictures = picturesPublish ? 'publish' : picturesRecord ? 'record' : 'none';
  const facts = [
    ['mileage', mileage === null ? '–' : `${count(manner, mileage)} ${mileageUnit}`],
    ['keys', String(record.keyCount)],
    ['belongings', record.belongings || '–'],
    ['pictures', say(locale, `doc.record.pictures.${pictures}`)],
    ['note', record.note],
  ] as const;
  return facts
    .filter(([, text]) => text !== '')
    .map(([key, text]) => ({ cells: [say(locale, `doc.record.${key}`), text] }));
}

function part(pdf: Pdf, title: string): void {
  space(pdf, 12);
  heading(pdf, title, 2 * STYLES.body.size * LEADING);
}

function list(pdf: Pdf, sentences: readonly string[]): void {
  for (const sentence of sentences) paragraph(pdf, `– ${sentence}`, { tag: 'LI' });
}

function drawDamage(pdf: Pdf, { record, job }: CarRecordPaper, { locale }: PaperManner): void {
  if (record.damage.length === 0) return;
  part(pdf, say(locale, 'doc.record.damage'));
  list(
    pdf,
    record.damage.map((d) => {
      const panel = panelName(locale, d.panel, job.vehicle.body);
      return say(locale, 'doc.record.damageLine', { panel, note: d.note });
    }),
  );
}

function drawHandover(pdf: Pdf, paper: CarRecordPaper, manner: PaperManner): void {
  const { locale } = manner;
  const { job, record, stays } = paper;
  const done = job.stages.filter(
    (s) =>
      s.state === 'done' &&
      s.kind !== 'handover' &&
      s.kind !== 'inspection' &&
      (s.doneMs ?? 0) <= record.atMs,
  );
  part(pdf, say(locale, 'doc.record.done'));
  const words = done.map((s) => say(locale, `word.stage.${s.kind}`)).join(', ');
  paragraph(pdf, done.length === 0 ? say(locale, 'doc.record.nothingDone') : words);
  if (stays.length > 0) {
    part(pdf, say(locale, 'doc.record.stays'));
    list(pdf, stays);
  }
  drawFilm(pdf, paper, manner);
  const care = careSentences(locale, done);
  if (care.length === 0) return;
  part(pdf, say(locale, 'doc.care'));
  list(pdf, care);
}

function drawFilm(pdf: Pdf, { panels, job }: CarRecordPaper, manner: PaperManner): void {
  const { locale } = manner;
  if (panels.length === 0) return;
  part(pdf, say(locale, 'doc.record.film'));
  const readAfter = panels.some((p) => p.lowestAfterTenthUm !== null);
  const after = { title: say(locale, 'doc.record.lowestAfter'), share: 3, align: 'right' } as const;
  const columns = [
    { title: say(locale, 'card.panel'), share: 4 },
    { title: say(locale, 'card.lowest'), share: 3, align: 'right' },
    ...(readAfter ? [after] : []),
    { title: say(locale, 'card.mayTake'), share: 5, align: 'right' },
  ] as const;
  const written = (tenthUm: number | null): string =>
    tenthUm === null ? '–' : amountText(film(manner, tenthUm));
  const rows = panels.map((p): TableRow => {
    const may =
      p.mayTakeTenthUm === null || p.why === 'thin'
        ? say(locale, `word.may.${p.why}`)
        : written(p.mayTakeTenthUm);
    const now = readAfter ? [written(p.lowestAfterTenthUm)] : [];
    const name = panelName(locale, p.panel, job.vehicle.body);
    return { cells: [name, written(p.lowestTenthUm), ...now, may] };
  });
  table(pdf, columns, rows);
  small(pdf, say(locale, 'doc.record.filmNote'));
}

/** Whose word it stands on: signed on the screen, said, or room to sign. */
function drawWord(pdf: Pdf, record: CarRecordView, manner: PaperManner): void {
  const { locale } = manner;
  const { kind, agreedBy, agreedWay, atMs, by, strokes } = record;
  space(pdf, 16);
  const values = { name: agreedBy, way: say(locale, `record.way.${agreedWay}`), when: exact(manner, atMs) };
  paragraph(pdf, say(locale, `doc.record.word.${kind}`, values), { style: 'strong' });
  if (by) small(pdf, say(locale, 'doc.record.by', { name: by.name }));
  if (strokes.length > 0) drawSignature(pdf, strokes, locale);
  else if (agreedWay === 'printedForm') drawRoom(pdf, locale);
}

const SIGN = { width: 180, height: 60 } as const;

function drawSignature(pdf: Pdf, strokes: CarRecordView['strokes'], locale: PaperManner['locale']): void {
  figure(pdf, SIGN.height, say(locale, 'doc.signature'), (doc, box) => {
    doc.lineWidth(0.9).lineCap('round').lineJoin('round').strokeColor('#000');
    for (const stroke of strokes) {
      stroke.forEach(([x, y], i) => {
        const at = [box.x + (x / 1000) * SIGN.width, box.y + (y / 1000) * SIGN.height] as const;
        if (i === 0) doc.moveTo(...at).lineTo(at[0] + 0.01, at[1]);
        else doc.lineTo(...at);
      });
      doc.stroke();
    }
  });
}

function drawRoom(pdf: Pdf, locale: PaperManner['locale']): void {
  figure(pdf, 44, say(locale, 'doc.signature'), (doc, box) => {
    doc.fillColor('#000');
    drawLine(doc, say(locale, 'doc.signature'), { ...box, width: SIGN.width }, STYLES.small);
    doc
      .lineWidth(0.6)
      .moveTo(box.x, box.y + 40)
      .lineTo(box.x + SIGN.width, box.y + 40)
      .stroke('#000');
  });
}
