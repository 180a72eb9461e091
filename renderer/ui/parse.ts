/**
 * Reads what people type into number fields, in the separators of the shop's region. Exact: money never
 * becomes a float. All answer null where the text is not such a figure.
 */

import { type AmountStyle, writtenPer } from '#core/shared/amounts.ts';
import type { BaseUnit } from '#core/shared/vocabulary.ts';

type Separators = { readonly group: string; readonly decimal: string };

/** The group and decimal marks of a region: `,` and `.` for en-GB, `.` and `,` for de-DE. */
export function separators(region: string): Separators {
  const parts = new Intl.NumberFormat(region).formatToParts(12345.6);
  return {
    group: parts.find((p) => p.type === 'group')?.value ?? ',',
    decimal: parts.find((p) => p.type === 'decimal')?.value ?? '.',
  };
}

/** A sign, then a currency or none, the figure, and one currency, one unit or nothing after it: no letter for a nought. */
const FIGURE =
  /^([-−–]?)\s*[\p{Sc}\p{L}]{0,4}\s*([-−–]?)\s*([\d.,]*\d[\d.,]*)(?![oO]+$)\s*[\p{Sc}\p{L}%²/]{0,8}$/u;
/** A blank or an apostrophe before three digits of the figure. */
const GROUPED = /(?<=\d)[\s'’](?=\d{3}(?!\d))/g;

/**
 * Cleans to `-?digits[.digits]`; null where the text is more or less than one figure. Blanks and apostrophes group.
 * Where both marks stand, the last one is the decimal mark, whatever the region: `1.095,50` can mean nothing else.
 * A single group mark followed by other than three digits is taken as the decimal mark.
 */
function plainDecimal(text: string, region: string): string | null {
  const parts = FIGURE.exec(text.trim().replace(GROUPED, ''));
  if (!parts) return null;
  const [, before = '', after = '', figure = ''] = parts;
  const [whole = '', part] = splitAtDecimal(figure, region);
  const digits = whole.replace(/[.,]/g, '');
  const grouped = whole === digits || /^\d{1,3}(?:([.,])\d{2,3})?(?:\1\d{2,3})*[.,]\d{3}$/.test(whole);
  if (!grouped || (part !== undefined && /[.,]/.test(part))) return null;
  const sign = before + after === '' ? '' : '-';
  return before && after ? null : `${sign}${digits}${part ? `.${part}` : ''}`;
}

function splitAtDecimal(figure: string, region: string): readonly string[] {
  const { group, decimal } = separators(region);
  const last = Math.max(figure.lastIndexOf('.'), figure.lastIndexOf(','));
  const mark = figure[last];
  const both = figure.includes('.') && figure.includes(',');
  const alone = mark !== undefined && figure.indexOf(mark) === last;
  const isGroup = mark === group && (!alone || /[.,]\d{3}$/.test(figure));
  if (mark === undefined || (!both && (isGroup || (mark !== decimal && !alone)))) return [figure];
  return [figure.slice(0, last), figure.slice(last + 1)];
}

/** A number with at most `digits` decimals; more is not such a figure. */
export function parseNumber(text: string, region: string, digits: number): number | null {
  const plain = plainDecimal(text, region);
  if (plain === null) return null;
  if ((plain.split('.')[1] ?? '').length > digits) return null;
  return Number(plain);
}

/**
 * A number in a field that says its unit: behind it that unit may be written, and nothing else. `12,345 mi` in a field of
 * kilometres is not 12,345 of them, and `999999 abc` is no mileage.
 */
export function parseIn(text: string, region: string, digits: number, unit: string): number | null {
  const word = /[\p{L}%²/]+$/u.exec(text.trim())?.[0];
  const known = word === undefined || plainWord(word) === plainWord(unit);
  return known ? parseNumber(text, region, digits) : null;
}

/** Written either way, the sign of a millionth is one letter. */
function plainWord(word: string): string {
  return word.normalize('NFKC').toLowerCase();
}

/** Money as minor units of a currency with `digits`; exact. */
export function parseMinor(text: string, region: string, digits: number): number | null {
  const plain = plainDecimal(text, region);
  if (plain === null) return null;
  const [whole = '', part = ''] = plain.split('.');
  if (part.length > digits) return null;
  const minor = Number(`${whole === '' || whole === '-' ? `${whole}0` : whole}${part.padEnd(digits, '0')}`);
  return Number.isSafeInteger(minor) ? minor : null;
}

/** The figure, then the word behind it. */
const WITH_UNIT = /^(.*?\d[\d.,\s'’]*?)\s*(\p{L}[\p{L}\s.]*)$/u;

/**
 * An amount as the shop reads it, also where another unit of its kind is written behind it: `11.2 l` in a field of
 * millilitres is 11,200. A word that is no such unit makes it no amount: a thousandth must not be taken for the whole.
 */
export function parseAmount(
  text: string,
  region: string,
  digits: number,
  unit: BaseUnit,
  style: AmountStyle,
): number | null {
  const parts = WITH_UNIT.exec(text.trim());
  if (!parts) return /\p{Sc}/u.test(text) ? null : parseNumber(text, region, digits);
  const [, figure = '', word = ''] = parts;
  const per = writtenPer(word, unit, style);
  const value = parseNumber(figure, region, MOST_DIGITS);
  return per === null || value === null ? null : value * per;
}
const MOST_DIGITS = 6;

/** Minutes from `9.5`, `9.5 h`, `9:30`, `9h30` or `90 min`. */
export function parseMinutes(text: string, region: string): number | null {
  const t = text.trim().toLowerCase();
  const clock = /^(\d+)\s*(?::|h)\s*([0-5]?\d)\s*(?:min|m)?$/.exec(t);
  if (clock) return Number(clock[1]) * 60 + Number(clock[2]);
  const minutes = /^([\d.,]+)\s*(?:min|m)$/.exec(t);
  const plain = plainDecimal(minutes ? (minutes[1] ?? '') : t.replace(/h(ours?)?$/, ''), region);
  if (plain === null || plain.startsWith('-')) return null;
  return Math.round(Number(plain) * (minutes ? 1 : 60));
}

/** Whole figures one after the other, `7, 14, 30`; nothing typed is an empty list. */
export function parseWholes(text: string): readonly number[] | null {
  if (text.trim() === '') return [];
  const figures = text.trim().split(/\s*[,;]\s*|\s+/);
  const wholes = figures.map((one) => (/^\d+$/.test(one) ? Number(one) : Number.NaN));
  return wholes.every(Number.isSafeInteger) ? wholes : null;
}
