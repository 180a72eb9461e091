import { createRequire } from 'node:module';
import type Bwip from 'bwip-js/node';

const require = createRequire(import.meta.url);
let library: typeof Bwip | undefined;

/** Light edge that a reader needs on either side, in modules. @source ISO/IEC 15417, 4.4: 10X */
export const QUIET_MODULES = 10;

/** One dark bar: where it starts and how wide it is, in modules from the first bar. */
export type Bar = { readonly at: number; readonly width: number };
export type BarRow = { readonly bars: readonly Bar[]; readonly modules: number };

/**
 * The bars of a text as Code 128 (ISO/IEC 15417), which every reader that types like a keyboard knows. The library
 * is loaded with the first code. Null for a text that the code has no signs for.
 */
export function code128(text: string): BarRow | null {
  if (!/^[\u0020-\u007e]{1,60}$/.test(text)) return null;
  library ??= require('bwip-js/node') as typeof Bwip;
  const [row] = library.raw({ bcid: 'code128', text });
  const widths = row && 'sbs' in row ? row.sbs : [];
  const bars: Bar[] = [];
  let at = 0;
  widths.forEach((width, i) => {
    if (i % 2 === 0) bars.push({ at, width });
    at += width;
  });
  return { bars, modules: at };
}

/** Light edge of a square code on each side, in modules. @source ISO/IEC 18004, 5.3.8: 4X */
export const QUIET_SQUARE = 4;

/** A square code: how many modules an edge has, and which are dark. */
export type Modules = {
  readonly size: number;
  isDark(row: number, column: number): boolean;
};

/** A text as a square code (ISO/IEC 18004), UTF-8, error correction M: about 15 % of it may be spoiled. */
export function qrCode(text: string): Modules | null {
  library ??= require('bwip-js/node') as typeof Bwip;
  const [square] = library.raw('qrcode', text, 'eclevel=M');
  if (!square || !('pixs' in square)) return null;
  const { pixs, pixx } = square;
  return { size: pixx, isDark: (row, column) => pixs[row * pixx + column] === 1 };
}
