import { pdfDocument } from './pdfLibrary.ts';
import { type Align, drawLine, linesOf, registerFaces, type TextStyle, widthOf } from './pdfText.ts';

type Doc = PDFKit.PDFDocument;

/** Print sizes in points, and the leading as a multiple of the size. */
export const STYLES = {
  small: { size: 8.5, weight: 'regular' },
  body: { size: 10, weight: 'regular' },
  strong: { size: 10, weight: 'strong' },
  lead: { size: 13, weight: 'strong' },
  title: { size: 16, weight: 'strong' },
} as const satisfies Readonly<Record<string, TextStyle>>;
export type StyleName = keyof typeof STYLES;
export const LEADING = 1.38;

const PAPERS = { A4: [595.28, 841.89], Letter: [612, 792] } as const;
export type Paper = keyof typeof PAPERS;
const FOOT_GAP = 14;
const MARGIN = { side: 51, top: 45, bottom: 62 } as const;

/** Everything that makes the same bytes again: no clock and no chance inside. */
export type PdfSpec = {
  readonly title: string;
  readonly author: string;
  /** BCP 47, for readers that speak the document. */
  readonly language: string;
  readonly paper: Paper;
  /** Written into the file as its date, epoch ms. */
  readonly createdMs: number;
  /** Left part of the foot of every page; a sheet without foot and page word has none. */
  readonly foot: string;
  /** Right part of the foot of every page, for instance `page 1 of 3`. */
  pageWord(page: number, of: number): string;
};

/** A document being drawn. `y` is the top of the next line, in points from the top of the page. */
export type Pdf = {
  readonly doc: Doc;
  readonly spec: PdfSpec;
  readonly left: number;
  readonly width: number;
  readonly bottom: number;
  readonly root: PDFKit.PDFStructureElement;
  y: number;
};
export type Box = { readonly x: number; readonly y: number; readonly width: number };

/** Starts a black-on-white document with its first page, embedded faces and structure for readers. */
export function openPdf(spec: PdfSpec): Pdf {
  const [paperWidth, paperHeight] = PAPERS[spec.paper];
  const doc = new (pdfDocument())({
    size: [paperWidth, paperHeight],
    margin: 0,
    // No face of its own: each piece of text names one of the shipped faces.
    font: null as unknown as string,
    bufferPages: true,
    tagged: true,
    pdfVersion: '1.7',
    lang: spec.language,
    displayTitle: true,
    info: {
      Title: spec.title,
      Author: spec.author,
      Creator: 'Rakelight',
      Producer: 'Rakelight',
      CreationDate: new Date(spec.createdMs),
    },
  });
  registerFaces(doc);
  const root = doc.struct('Document');
  doc.addStructure(root);
  const width = paperWidth - 2 * MARGIN.side;
  return { doc, spec, left: MARGIN.side, width, bottom: paperHeight - MARGIN.bottom, root, y: MARGIN.top };
}

/** Starts a new page when fewer than `height` points are left on this one. */
export function need(pdf: Pdf, height: number): boolean {
  if (pdf.y + height <= pdf.bottom) return false;
  pdf.doc.addPage();
  pdf.y = MARGIN.top;
  return true;
}

export function space(pdf: Pdf, points: number): void {
  pdf.y += points;
}

/** Marks what `draw` draws as content of one structure element, for readers that speak the document. */
export function marked(pdf: Pdf, element: PDFKit.PDFStructureElement, tag: string, draw: () => void): void {
  const content = pdf.doc.markStructureContent(tag);
  draw();
  pdf.doc.endMarkedContent();
  element.add(content);
}

/** Draws lines and shapes that carry no meaning of their own: rules, borders. */
export function ornament(pdf: Pdf, draw: () => void): void {
  pdf.doc.markContent('Artifact', { type: 'Layout' });
  draw();
  pdf.doc.endMarkedContent();
}

/** A child of the document's structure, or of `parent`. */
export function element(
  pdf: Pdf,
  tag: string,
  parent: PDFKit.PDFStructureElement = pdf.root,
): PDFKit.PDFStructureElement {
  const made = pdf.doc.struct(tag);
  parent.add(made);
  return made;
}

/** A horizontal rule across the text width. */
export function rule(pdf: Pdf, weight = 0.5): void {
  ornament(pdf, () => {
    pdf.doc
      .lineWidth(weight)
      .moveTo(pdf.left, pdf.y)
      .lineTo(pdf.left + pdf.width, pdf.y)
      .stroke('#000');
  });
  pdf.y += weight;
}

export type ParagraphOptions = {
  readonly style?: StyleName;
  readonly align?: Align;
  /** Tag of the structure element: P, H1, H2, LI … */
  readonly tag?: string;
  readonly box?: Omit<Box, 'y'>;
};

/** A heading of a part; it never stands alone at the end of a page, without `below` points of what it heads. */
export function heading(pdf: Pdf, text: string, below: number): void {
  need(pdf, STYLES.strong.size * LEADING + below);
  paragraph(pdf, text, { style: 'strong', tag: 'H2' });
}

/** Wrapped text at the cursor; moves the cursor below it and starts new pages where it must. */
export function paragraph(pdf: Pdf, text: string, options: ParagraphOptions = {}): void {
  const style = STYLES[options.style ?? 'body'];
  const box = options.box ?? { x: pdf.left, width: pdf.width };
  const tag = options.tag ?? 'P';
  const made = element(pdf, tag);
  for (const line of linesOf(pdf.doc, text, style, box.width)) {
    need(pdf, style.size * LEADING);
    marked(pdf, made, tag, () => {
      pdf.doc.fillColor('#000');
      drawLine(pdf.doc, line, { ...box, y: pdf.y }, style, options.align);
    });
    pdf.y += style.size * LEADING;
  }
  made.end();
}

export type Block = {
  readonly lines: readonly { readonly text: string; readonly style?: StyleName }[];
  /** Share of the text width, against the other blocks' shares. */
  readonly share: number;
  readonly align?: Align;
};

/** Blocks of lines side by side (from, to, dates); the cursor moves below the tallest. */
export function sideBySide(pdf: Pdf, blocks: readonly Block[], gap = 18): void {
  const shares = blocks.reduce((sum, b) => sum + b.share, 0);
  const free = pdf.width - gap * (blocks.length - 1);
  const top = pdf.y;
  let x = pdf.left;
  let lowest = top;
  for (const block of blocks) {
    const width = (free * block.share) / shares;
    pdf.y = top;
    for (const line of block.lines)
      paragraph(pdf, line.text, {
        style: line.style ?? 'body',
        align: block.align ?? 'left',
        box: { x, width },
      });
    lowest = Math.max(lowest, pdf.y);
    x += width + gap;
  }
  pdf.y = lowest;
}

/** A drawing of a known height; `alt` says in words what it shows. The colours set inside do not leak out. */
export function figure(pdf: Pdf, height: number, alt: string, draw: (doc: Doc, box: Box) => void): void {
  need(pdf, height);
  const made = pdf.doc.struct('Figure', { alt });
  pdf.root.add(made);
  marked(pdf, made, 'Figure', () => {
    pdf.doc.save();
    draw(pdf.doc, { x: pdf.left, y: pdf.y, width: pdf.width });
    pdf.doc.restore();
  });
  made.end();
  pdf.y += height;
}

/** Puts the feet on all pages and gives the finished bytes. */
export async function finishPdf(pdf: Pdf): Promise<Uint8Array> {
  const { start, count } = pdf.doc.bufferedPageRange();
  for (let page = 0; page < count; page += 1) {
    pdf.doc.switchToPage(start + page);
    const pageWord = pdf.spec.pageWord(page + 1, count);
    if (pdf.spec.foot || pageWord) ornament(pdf, () => drawFoot(pdf, pageWord));
  }
  pdf.root.end();
  const chunks: Uint8Array[] = [];
  const done = new Promise<void>((resolve, reject) => {
    pdf.doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    pdf.doc.on('end', resolve);
    pdf.doc.on('error', reject);
  });
  pdf.doc.end();
  await done;
  return new Uint8Array(Buffer.concat(chunks));
}

/** The foot has room for this many lines; what does not fit into them is left out. */
const FOOT_LINES = 3;

function drawFoot(pdf: Pdf, right: string): void {
  const y = pdf.bottom + 22;
  const style = STYLES.small;
  const room = pdf.width - widthOf(pdf.doc, right, style) - FOOT_GAP;
  pdf.doc
    .lineWidth(0.5)
    .moveTo(pdf.left, y - 6)
    .lineTo(pdf.left + pdf.width, y - 6)
    .stroke('#000')
    .fillColor('#000');
  linesOf(pdf.doc, pdf.spec.foot, style, room)
    .slice(0, FOOT_LINES)
    .forEach((text, i) => {
      drawLine(pdf.doc, text, { x: pdf.left, y: y + i * style.size * LEADING, width: room }, style);
    });
  drawLine(pdf.doc, right, { x: pdf.left, y, width: pdf.width }, style, 'right');
}
