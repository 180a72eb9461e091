import type { SellerView } from '../shared/views/billing.ts';
import { code128, QUIET_MODULES } from './barcode.ts';
import { type Box, element, finishPdf, marked, openPdf, ornament, type Pdf, STYLES } from './pdfKit.ts';
import { drawLine, linesOf } from './pdfText.ts';

/** What stands on one label, its name on at most two lines; `code` is printed as bars where they fit and as text. '' prints none. */
export type Label = {
  readonly name: string;
  readonly under: string;
  readonly hazards: string;
  readonly code: string;
};

const POINTS_PER_MM = 72 / 25.4;
const COLUMNS = 3;
const ROWS = 8;
/** Space inside a label's edge, and the height of its bars, points. */
const INSET = 3 * POINTS_PER_MM;
const BARS = 11 * POINTS_PER_MM;
/** The widest a module gets: 0.5 mm reads well from a hand's length. Common practice, no source. */
const WIDEST_MODULE = 0.5 * POINTS_PER_MM;
/** Narrower ones run together in print: 0.19 mm is little more than two dots at 300 dpi. Common practice, no source. */
const NARROWEST_MODULE = 0.19 * POINTS_PER_MM;

/** Shelf labels, three by eight on a sheet, in the order given; A4 makes them 70 × 37.1 mm. */
export async function labelsPdf(
  labels: readonly Label[],
  shop: SellerView,
  title: string,
  createdMs: number,
): Promise<Uint8Array> {
  const { name: author, locale: language, paper } = shop;
  const pdf = openPdf({ title, author, language, paper, createdMs, foot: '', pageWord: () => '' });
  const { width, height } = pdf.doc.page;
  const size = { width: width / COLUMNS, height: height / ROWS };
  labels.forEach((label, i) => {
    const at = i % (COLUMNS * ROWS);
    if (i > 0 && at === 0) pdf.doc.addPage();
    const x = (at % COLUMNS) * size.width;
    const y = Math.floor(at / COLUMNS) * size.height;
    drawLabel(pdf, label, { x: x + INSET, y: y + INSET, width: size.width - 2 * INSET });
  });
  return finishPdf(pdf);
}

function drawLabel(pdf: Pdf, label: Label, box: Box): void {
  const made = element(pdf, 'P');
  let { y } = box;
  const line = (text: string, style: keyof typeof STYLES): void => {
    marked(pdf, made, 'P', () => {
      pdf.doc.fillColor('#000');
      drawLine(pdf.doc, text, { ...box, y }, STYLES[style]);
    });
    y += STYLES[style].size * 1.2;
  };
  for (const text of fitted(pdf, label.name, 'strong', box.width, 2)) line(text, 'strong');
  for (const text of fitted(pdf, label.under, 'small', box.width, 1)) line(text, 'small');
  for (const text of fitted(pdf, label.hazards, 'small', box.width, 1)) line(text, 'small');
  y += 3;
  if (drawBars(pdf, label.code, { ...box, y })) y += BARS + 1;
  for (const text of fitted(pdf, label.code, 'small', box.width, 1)) line(text, 'small');
  made.end();
}

/** At most `most` lines; a text that has more ends in an ellipsis. */
function fitted(
  pdf: Pdf,
  text: string,
  style: keyof typeof STYLES,
  width: number,
  most: number,
): readonly string[] {
  if (text === '') return [];
  const lines = linesOf(pdf.doc, text, STYLES[style], width - STYLES[style].size);
  return lines.length <= most ? lines : [...lines.slice(0, most - 1), `${lines[most - 1]} …`];
}

/** Answers whether there were bars to draw: a code whose bars would be too narrow to read is left to its text. */
function drawBars(pdf: Pdf, code: string, box: Box): boolean {
  const row = code === '' ? null : code128(code);
  if (!row) return false;
  const module = Math.min(WIDEST_MODULE, box.width / (row.modules + 2 * QUIET_MODULES));
  if (module < NARROWEST_MODULE) return false;
  const left = box.x + QUIET_MODULES * module;
  ornament(pdf, () => {
    for (const bar of row.bars) pdf.doc.rect(left + bar.at * module, box.y, bar.width * module, BARS);
    pdf.doc.fill('#000');
  });
  return true;
}
