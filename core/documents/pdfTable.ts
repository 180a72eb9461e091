import { element, LEADING, marked, need, ornament, type Pdf, STYLES, type StyleName } from './pdfKit.ts';
import { type Align, drawLine, linesOf, type TextStyle, widthOf } from './pdfText.ts';

export type Column = {
  readonly title: string;
  /** Share of the table's width, against the other columns' shares. */
  readonly share: number;
  readonly align?: Align;
};
export type TableRow = {
  readonly cells: readonly string[];
  readonly style?: StyleName;
  /** The rule above the row; `none` joins it to the row before. */
  readonly rule?: 'thin' | 'strong' | 'none';
};
type Placed = { readonly x: number; readonly width: number; readonly align: Align };

const PAD = 3;
const GAP = 8;
/** Rules finer than this are grey, so that the strong ones part the table. */
const THIN = 0.5;

/**
 * A table across the text width: the head is repeated on each page, cells wrap, figures stand in columns.
 * A row is never cut by the end of a page.
 */
export function table(pdf: Pdf, columns: readonly Column[], rows: readonly TableRow[]): void {
  const placed = place(pdf, columns);
  const made = element(pdf, 'Table');
  const head: TableRow = { cells: columns.map((c) => c.title), style: 'strong', rule: 'none' };
  const withHead = columns.some((c) => c.title !== '');
  const first = rows[0];
  const start = (withHead ? heightOf(pdf, head, placed) : 0) + (first ? heightOf(pdf, first, placed) : 0);
  need(pdf, start);
  if (withHead) drawRow(pdf, made, head, placed, 'TH');
  for (const row of rows) {
    if (need(pdf, heightOf(pdf, row, placed)) && withHead) drawRow(pdf, made, head, placed, 'TH');
    drawRow(pdf, made, row, placed, 'TD');
  }
  line(pdf, 0.5);
  made.end();
}

function place(pdf: Pdf, columns: readonly Column[]): Placed[] {
  const shares = columns.reduce((sum, c) => sum + c.share, 0);
  const free = pdf.width - GAP * (columns.length - 1);
  let x = pdf.left;
  return columns.map((c) => {
    const width = (free * c.share) / shares;
    const at = { x, width, align: c.align ?? ('left' as const) };
    x += width + GAP;
    return at;
  });
}

/** A sum that is too wide for its column in large print is set in the size of the others: cut in two it misreads. */
function styleOf(pdf: Pdf, row: TableRow, placed: readonly Placed[]): TextStyle {
  const style = { ...STYLES[row.style ?? 'body'], figures: true };
  if (row.style !== 'lead') return style;
  const isCut = placed.some((at, i) =>
    (row.cells[i] ?? '').split(' ').some((word) => widthOf(pdf.doc, word, style) > at.width),
  );
  return isCut ? { ...STYLES.strong, figures: true } : style;
}

function cellLines(pdf: Pdf, row: TableRow, placed: readonly Placed[]): string[][] {
  const style = styleOf(pdf, row, placed);
  return placed.map((at, i) => linesOf(pdf.doc, row.cells[i] ?? '', style, at.width));
}

function heightOf(pdf: Pdf, row: TableRow, placed: readonly Placed[]): number {
  const most = Math.max(...cellLines(pdf, row, placed).map((l) => l.length));
  return most * styleOf(pdf, row, placed).size * LEADING + 2 * PAD;
}

function drawRow(
  pdf: Pdf,
  tableElement: PDFKit.PDFStructureElement,
  row: TableRow,
  placed: readonly Placed[],
  tag: 'TH' | 'TD',
): void {
  if (row.rule !== 'none') line(pdf, row.rule === 'strong' ? 1 : 0.35);
  const style = styleOf(pdf, row, placed);
  const tr = element(pdf, 'TR', tableElement);
  const lines = cellLines(pdf, row, placed);
  placed.forEach((at, i) => {
    const cell = element(pdf, tag, tr);
    marked(pdf, cell, tag, () => {
      pdf.doc.fillColor('#000');
      (lines[i] ?? []).forEach((text, k) => {
        drawLine(pdf.doc, text, { ...at, y: pdf.y + PAD + k * style.size * LEADING }, style, at.align);
      });
    });
    cell.end();
  });
  tr.end();
  pdf.y += heightOf(pdf, row, placed);
}

function line(pdf: Pdf, weight: number): void {
  ornament(pdf, () => {
    pdf.doc
      .lineWidth(weight)
      .moveTo(pdf.left, pdf.y)
      .lineTo(pdf.left + pdf.width, pdf.y)
      .stroke(weight < THIN ? '#888' : '#000');
  });
}
