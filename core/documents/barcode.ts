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
 * is loaded with the first label. Null for a text that the code has no signs for.
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
