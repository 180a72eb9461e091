import { refuse } from '../../shared/errors.ts';
import { MOST_LETTERS } from '../../shared/letters.ts';

/** The longest name that fits the tables and still prints. */
export const NAME_MOST = MOST_LETTERS.name;
export type Named = 'customer' | 'person' | 'shop' | 'vehicle' | 'tax' | 'package';

/**
 * A name as it is kept: one space between words, none around, letters composed (NFC), nothing unprintable.
 * @throws NAME_MISSING when nothing is left; NAME_TOO_LONG above 120 letters
 * @example cleanName('  Änne   Über ', 'customer') //=> 'Änne Über'
 */
export function cleanName(typed: string, what: Named): string {
  const name = cleanLine(typed);
  if (name === '') refuse('NAME_MISSING', { what });
  const has = [...name].length;
  if (has > NAME_MOST) refuse('NAME_TOO_LONG', { most: NAME_MOST, has });
  return name;
}

/** One line of text without edges, doubled spaces or control characters; `''` stays. */
export function cleanLine(typed: string): string {
  return typed
    .normalize('NFC')
    .replace(/[\p{Cc}\p{Cf}]+/gu, ' ')
    .replace(/\s+/gu, ' ')
    .trim();
}

/** Several lines: each cleaned, empty ones dropped, kept apart by `\n`. */
export function cleanLines(typed: string): string {
  return typed
    .split(/\r\n|\r|\n/u)
    .map(cleanLine)
    .filter((line) => line !== '')
    .join('\n');
}

const NOT_COMPOSED: Readonly<Record<string, string>> = { ß: 'ss', æ: 'ae', œ: 'oe', ø: 'o', ł: 'l', đ: 'd' };

/**
 * A text as it is looked for: lower case, without accents.
 * @example foldText('Müller-Łoś') //=> 'muller-los'
 */
export function foldText(text: string): string {
  return cleanLine(text)
    .toLowerCase()
    .normalize('NFD')
    .replace(/\p{M}+/gu, '')
    .replace(/[ßæœøłđ]/gu, (letter) => NOT_COMPOSED[letter] ?? letter);
}

/** The digits of a telephone number, for finding. @example phoneKey('+49 (0)30 12') //=> '4903012' */
export function phoneKey(phone: string): string {
  return phone.replace(/\D+/gu, '');
}

/** Fewest digits by which two numbers can be called the same. */
export const PHONE_LEAST = 6;

/**
 * True when two numbers reach the same telephone: the same digits, or one is the other with its country or area
 * code in front. Leading zeros don't count; fewer than six digits are never the same.
 * @example samePhone('4930123456', '030123456') //=> true
 */
export function samePhone(keyA: string, keyB: string): boolean {
  const [a, b] = [keyA.replace(/^0+/u, ''), keyB.replace(/^0+/u, '')];
  if (Math.min(a.length, b.length) < PHONE_LEAST) return false;
  return a.endsWith(b) || b.endsWith(a);
}

const EMAIL = /^[^\s@,;<>]+@[^\s@,;<>]+\.[^\s@,;<>.]+$/u;

/**
 * An e-mail address without edges; `''` = none is fine.
 * @throws EMAIL_UNREADABLE when it has no name, no @ or no domain with a dot
 */
export function cleanEmail(typed: string): string {
  const email = cleanLine(typed);
  if (email !== '' && !EMAIL.test(email)) refuse('EMAIL_UNREADABLE', { email });
  return email;
}
