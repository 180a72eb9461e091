import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { pdfDocument } from './pdfLibrary.ts';

/** The two weights that documents use. */
export type Weight = 'regular' | 'strong';

const WEIGHT_FILES = { regular: '400', strong: '600' } as const satisfies Record<Weight, string>;

/**
 * Faces in the order they are tried for a sign: the program's own face first, then one with the signs it lacks
 * (µ, Greek, Cyrillic, Vietnamese), so that names and units print on every computer.
 */
const FACES = [
  ['atkinson-hyperlegible-next', 'latin'],
  ['atkinson-hyperlegible-next', 'latin-ext'],
  ['noto-sans', 'latin'],
  ['noto-sans', 'latin-ext'],
  ['noto-sans', 'greek'],
  ['noto-sans', 'cyrillic'],
  ['noto-sans', 'vietnamese'],
] as const;

/** Package and file of all faces; a build copies them into a folder `fonts` beside the workers. */
export const FONT_FILES: readonly { readonly family: string; readonly file: string }[] = FACES.flatMap(
  ([family, subset]) =>
    Object.values(WEIGHT_FILES).map((w) => ({ family, file: `${family}-${subset}-${w}-normal.woff` })),
);

export type Face = { readonly name: string; readonly bytes: Buffer; has(codePoint: number): boolean };

const faces = new Map<string, Face>();

/** The faces of a weight, in the order they are tried. Read from disk once per process. */
export function facesOf(weight: Weight): readonly Face[] {
  return FACES.map(([family, subset]) => face(family, subset, WEIGHT_FILES[weight]));
}

function face(family: string, subset: string, weight: string): Face {
  const name = `${family}-${subset}-${weight}-normal.woff`;
  const known = faces.get(name);
  if (known) return known;
  const bytes = readFileSync(findFont(family, name));
  const made = { name, bytes, has: coverageOf(bytes) };
  faces.set(name, made);
  return made;
}

function findFont(family: string, name: string): string {
  for (const near of ['./fonts/', '../fonts/']) {
    const path = fileURLToPath(new URL(`${near}${name}`, import.meta.url));
    if (existsSync(path)) return path;
  }
  return createRequire(import.meta.url).resolve(`@fontsource/${family}/files/${name}`);
}

type OpenedFont = { readonly _font: { readonly font: { hasGlyphForCodePoint(codePoint: number): boolean } } };

/** Asked of a scratch document, so that a face that is never printed is never embedded. */
function coverageOf(bytes: Buffer): (codePoint: number) => boolean {
  const scratch = new (pdfDocument())({ font: bytes as unknown as string });
  const opened = (scratch as unknown as OpenedFont)._font.font;
  const seen = new Map<number, boolean>();
  return (codePoint) => {
    const known = seen.get(codePoint);
    if (known !== undefined) return known;
    const has = opened.hasGlyphForCodePoint(codePoint);
    seen.set(codePoint, has);
    return has;
  };
}
