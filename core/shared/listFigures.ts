/** Figures of a list: which sign begins the decimals, where spreadsheets of other regions use it for thousands. */
export type DecimalSign = '.' | ',';

/** One sign and three digits behind it: `31.200` is 31200 in one region and 31.2 in another. */
const TWO_WAYS = /^([1-9]\d{0,2})([.,])(\d{3})$/;
const ONE_SIGN = /^\d+([.,])\d+$/;
const THOUSANDS = /^[1-9]\d{0,2}(?:([.,])\d{3})(?:\1\d{3})*((?!\1)[.,]\d+)?$/;

/** The decimal sign that a figure shows by its own form: `25600,5`, `31.200,5`, `1.234.567`; null where it shows none. */
function signShown(figure: string): DecimalSign | null {
  if (TWO_WAYS.test(figure)) return null;
  const one = ONE_SIGN.exec(figure)?.[1];
  if (one) return one as DecimalSign;
  const thousands = THOUSANDS.exec(figure)?.[1];
  return thousands ? (thousands === '.' ? ',' : '.') : null;
}

/**
 * The decimal sign of a whole list; null where nobody can know it. Figures that can be read in one way only decide.
 * Without any, the delimiter does: a list split by commas was written with points, one split by semicolons with commas,
 * as long as no figure has the other sign.
 */
export function decimalSignOf(figures: readonly string[], delimiter: string): DecimalSign | null {
  const [shown, other] = new Set(figures.map(signShown).filter((sign) => sign !== null));
  if (shown) return other ? null : shown;
  const used = new Set(figures.flatMap((figure) => TWO_WAYS.exec(figure)?.[2] ?? []));
  const usual = delimiter === ',' ? '.' : delimiter === ';' ? ',' : null;
  return [...used].every((sign) => sign === usual) ? usual : null;
}

/**
 * A figure of a list with a point and no thousands marks, as `baseAmount` takes it; a text that is no figure comes back
 * as it is. `twoWays` says how to write one that can be read in two ways in a list whose decimal sign is not known.
 */
export function plainFigure(
  figure: string,
  sign: DecimalSign | null,
): { readonly plain: string } | { readonly twoWays: string } {
  const [, whole = '', mark = '', digits = ''] = TWO_WAYS.exec(figure) ?? [];
  const decimal = mark === '' ? signShown(figure) : sign;
  if (mark !== '' && sign === null) return { twoWays: bothWays(whole, mark, digits) };
  if (decimal === null) return { plain: figure };
  const thousands = decimal === '.' ? ',' : '.';
  return { plain: figure.replaceAll(thousands, '').replace(decimal, '.') };
}

/** Both readings so that neither can be taken for the other: `31200 / 31.2`, `31234 / 31.2340`. */
function bothWays(whole: string, mark: string, digits: string): string {
  const short = digits.replace(/0+$/, '');
  const decimals = short === '' ? '' : `${mark}${short.length === 3 ? `${short}0` : short}`;
  return `${whole}${digits} / ${whole}${decimals}`;
}
