import { getDocument, OPS, type PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** Opens a PDF with a library that had no part in making it. */
async function open(bytes: Uint8Array): Promise<PDFDocumentProxy> {
  return getDocument({ data: bytes.slice(), verbosity: 0, useSystemFonts: false }).promise;
}

/** The text of each page, pieces on one line joined, lines by spaces. */
export async function pdfText(bytes: Uint8Array): Promise<string[]> {
  const pdf = await open(bytes);
  const pages: string[] = [];
  for (let n = 1; n <= pdf.numPages; n += 1) {
    const content = await (await pdf.getPage(n)).getTextContent({ disableNormalization: true });
    pages.push(content.items.map((i) => ('str' in i ? i.str + (i.hasEOL ? ' ' : '') : '')).join(''));
  }
  await pdf.destroy();
  return pages;
}

/** Width and height of the first page in points. */
export async function sizeOf(bytes: Uint8Array): Promise<readonly [number, number]> {
  const pdf = await open(bytes);
  const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = (await pdf.getPage(1)).view;
  await pdf.destroy();
  return [x1 - x0, y1 - y0];
}

type TreeNode = { readonly role?: string; readonly alt?: string; readonly children?: readonly TreeNode[] };

/** What a reader that speaks the document finds: title, language, the roles of its parts, what pictures say in words. */
export async function marksOf(bytes: Uint8Array): Promise<{
  readonly title: string;
  readonly language: string;
  readonly roles: readonly string[];
  readonly alts: readonly string[];
}> {
  const pdf = await open(bytes);
  const { info } = await pdf.getMetadata();
  const { Title = '', Language = '' } = info as { readonly Title?: string; readonly Language?: string };
  const tree = (await (await pdf.getPage(1)).getStructTree()) as TreeNode | null;
  await pdf.destroy();
  const roles = new Set<string>();
  const alts: string[] = [];
  const walk = (node: TreeNode): void => {
    if (node.role) roles.add(node.role);
    if (node.alt) alts.push(node.alt);
    node.children?.forEach(walk);
  };
  if (tree) walk(tree);
  return { title: Title, language: Language, roles: [...roles], alts };
}

type Piece = {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
};

/** What a reader could not read: texts drawn over each other or past the edge of the page, as `page: text / text`. */
export async function collisionsOf(bytes: Uint8Array): Promise<string[]> {
  const pdf = await open(bytes);
  const found: string[] = [];
  for (let n = 1; n <= pdf.numPages; n += 1) {
    const page = await pdf.getPage(n);
    const [left = 0, , right = 0] = page.view;
    const pieces = (await page.getTextContent()).items.flatMap((item): Piece[] => {
      if (!('str' in item) || item.str.trim() === '') return [];
      const [, , , , x = 0, y = 0] = item.transform as number[];
      return [{ text: item.str, x, y, width: item.width, height: item.height }];
    });
    for (const a of pieces) {
      if (a.x < left || a.x + a.width > right) found.push(`${n}: ${a.text}`);
      for (const b of pieces) if (a !== b && isOver(a, b)) found.push(`${n}: ${a.text} / ${b.text}`);
    }
  }
  await pdf.destroy();
  return found;
}

/** Half a line apart or a point of overlap is still readable. */
function isOver(a: Piece, b: Piece): boolean {
  return (
    Math.abs(a.y - b.y) < Math.min(a.height, b.height) / 2 &&
    a.x <= b.x &&
    Math.min(a.x + a.width, b.x + b.width) - b.x > 1
  );
}

type Rect = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };

/** The filled rectangles of a document's pages in the order drawn, in the page's own units, y downwards as drawn. */
export async function filledRects(bytes: Uint8Array): Promise<Rect[]> {
  const pdf = await open(bytes);
  const rects: Rect[] = [];
  for (let n = 1; n <= pdf.numPages; n += 1) {
    const { fnArray, argsArray } = await (await pdf.getPage(n)).getOperatorList();
    fnArray.forEach((fn, i) => {
      if (fn !== OPS.constructPath) return;
      const [paint, [path]] = argsArray[i] as [number, [Float32Array?]];
      if (paint === OPS.fill && path) rects.push(...rectsOf(path));
    });
  }
  await pdf.destroy();
  return rects;
}

/** Steps of a path: 0 = move and 1 = line, each with a point, 4 = closed. */
function rectsOf(path: Float32Array): Rect[] {
  const rects: Rect[] = [];
  let points: [number, number][] = [];
  for (let i = 0; i < path.length; ) {
    const step = path[i];
    if (step === 0) points = [];
    if (step === 0 || step === 1) points.push([path[i + 1] ?? 0, path[i + 2] ?? 0]);
    i += step === 4 ? 1 : 3;
    if (step !== 4 || points.length < 4) continue;
    const [xs, ys] = [points.map((p) => p[0]), points.map((p) => p[1])];
    const [x, y] = [Math.min(...xs), Math.min(...ys)];
    rects.push({ x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y });
  }
  return rects;
}
