import type { VinCheck } from '../../shared/views/people.ts';

const LENGTH = 17;
/** Weights by place 1..17. @source 49 CFR 565.15(c), table IV */
const WEIGHTS = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2] as const;

/** Values of letters. I, O and Q have none. @source 49 CFR 565.15(c), table III */
const VALUES: Readonly<Record<string, number>> = {
  ...{ A: 1, B: 2, C: 3, D: 4, E: 5, F: 6, G: 7, H: 8 },
  ...{ J: 1, K: 2, L: 3, M: 4, N: 5, P: 7, R: 9 },
  ...{ S: 2, T: 3, U: 4, V: 5, W: 6, X: 7, Y: 8, Z: 9 },
};
/** Letters that are not used because they look like digits, and the digit that was likely meant. */
const MISREAD: Readonly<Record<string, string>> = { I: '1', O: '0', Q: '0' };
/** Regions whose makers must use the check digit: first place 1–5. @source ISO 3780 regions, 49 CFR 565 */
const NORTH_AMERICA = /^[1-5]/u;

/** The number as it is checked: capitals, no spaces or dashes. */
export function vinKey(typed: string): string {
  return typed.toUpperCase().replace(/[\s-]+/gu, '');
}

/**
 * Reads a vehicle identification number and says what does not fit, and where. Warns, never refuses: outside North
 * America a maker may leave the check digit unused. `''` is `none`.
 * @source ISO 3779; 49 CFR 565.15(c)
 * @example checkVin('1M8GDM9AXKP042788') //=> { kind: 'fits' }
 */
export function checkVin(typed: string): VinCheck {
  const vin = vinKey(typed);
  if (vin === '') return { kind: 'none' };
  const letters = [...vin];
  const odd = letters.findIndex((c) => letterValue(c) === null);
  if (odd >= 0) {
    const is = letters[odd] ?? '';
    return { kind: 'letter', place: odd + 1, is, should: MISREAD[is] ?? null };
  }
  if (letters.length !== LENGTH) return { kind: 'length', has: letters.length, needs: LENGTH };
  const should = checkDigit(letters);
  const is = letters[8] ?? '';
  if (is === should) return { kind: 'fits' };
  return { kind: 'checkDigit', place: 9, is, should, binding: NORTH_AMERICA.test(vin) };
}

/** Sum of value × weight modulo 11, 10 written X. Place 9 has weight 0. */
function checkDigit(letters: readonly string[]): string {
  const sum = letters.reduce((total, c, i) => total + (letterValue(c) ?? 0) * (WEIGHTS[i] ?? 0), 0);
  return sum % 11 === 10 ? 'X' : String(sum % 11);
}

function letterValue(letter: string): number | null {
  if (/^[0-9]$/u.test(letter)) return Number(letter);
  return VALUES[letter] ?? null;
}
