import { facesOf, type Weight } from './pdfFonts.ts';

type Doc = PDFKit.PDFDocument;
export type Align = 'left' | 'right' | 'centre';
export type TextStyle = { readonly size: number; readonly weight: Weight; readonly figures?: boolean };
/** Top of a line to its baseline, as a share of the size: roomy enough for accents on capitals. */
const ASCENT = 0.95;
type Run = { readonly face: string; readonly text: string };

/** The narrow no-break space of French stands in no shipped face; the thin space is as wide, and lines break at neither. */
const NARROW = /\u202f/gu;
const THIN = '\u2009';

/** A sign that none of the shipped faces has is printed as a question mark, never dropped. */
function runsOf(text: string, weight: Weight): Run[] {
  const faces = facesOf(weight);
  const runs: { face: string; text: string }[] = [];
  for (const sign of text.replace(NARROW, THIN)) {
    const code = sign.codePointAt(0) ?? 63;
    const found = faces.find((f) => f.has(code));
    const face = found?.name ?? faces[0]?.name ?? '';
    const last = runs.at(-1);
    if (last?.face === face) last.text += found ? sign : '?';
    else runs.push({ face, text: found ? sign : '?' });
  }
  return runs;
}

/** Makes every face known to the document by its name; only those printed are embedded. */
export function registerFaces(doc: Doc): void {
  for (const weight of ['regular', 'strong'] as const)
    for (const face of facesOf(weight)) doc.registerFont(face.name, face.bytes);
}

function featuresOf(style: TextStyle): PDFKit.Mixins.OpenTypeFeatures[] {
  return style.figures ? ['tnum', 'kern'] : ['kern'];
}

/** Printed width in points. */
export function widthOf(doc: Doc, text: string, style: TextStyle): number {
  let width = 0;
  for (const run of runsOf(text, style.weight)) {
    doc.font(run.face).fontSize(style.size);
    width += doc.widthOfString(run.text, { features: featuresOf(style) });
  }
  return width;
}

/** Lines no wider than `width` points. Breaks at spaces; a word that is too long by itself is cut. */
export function linesOf(doc: Doc, text: string, style: TextStyle, width: number): string[] {
  return text.split('\n').flatMap((part) => wrapped(doc, part, style, width));
}

function wrapped(doc: Doc, text: string, style: TextStyle, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ').flatMap((w) => pieces(doc, w, style, width))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && widthOf(doc, longer, style) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return [...lines, line];
}

function pieces(doc: Doc, word: string, style: TextStyle, width: number): string[] {
  if (widthOf(doc, word, style) <= width) return [word];
  const parts: string[] = [];
  let part = '';
  for (const sign of word) {
    if (part !== '' && widthOf(doc, part + sign, style) > width) {
      parts.push(part);
      part = sign;
    } else part += sign;
  }
  return [...parts, part];
}

/** Draws one line with its top at `y`, inside `width` from `x`. */
export function drawLine(
  doc: Doc,
  text: string,
  at: { readonly x: number; readonly y: number; readonly width: number },
  style: TextStyle,
  align: Align = 'left',
): void {
  const free = align === 'left' ? 0 : at.width - widthOf(doc, text, style);
  let x = at.x + (align === 'centre' ? free / 2 : free);
  // Faces differ in ascent: one common baseline keeps a borrowed sign on the line.
  const baseline = at.y + style.size * ASCENT;
  for (const run of runsOf(text, style.weight)) {
    doc.font(run.face).fontSize(style.size);
    const features = featuresOf(style);
    const width = doc.widthOfString(run.text, { features });
    doc.text(run.text, x, baseline, { lineBreak: false, features, baseline: 'alphabetic' });
    x += width;
  }
}
