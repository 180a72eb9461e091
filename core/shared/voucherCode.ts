import { refuse } from './errors.ts';

/** What codes are made of: figures and capitals without 0 and O, 1 and I, which are taken for each other. */
const SIGNS = '23456789ABCDEFGHJKLMNPQRSTUVWXYZ';
/** A code's signs: the last one checks the others. */
export const CODE_LENGTH = 9;
const GROUP = 3;

const CHECKED = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*';

/**
 * The sign that follows figures and capitals so that one wrong sign, or two neighbours swapped, is noticed.
 * @source ISO/IEC 7064, MOD 37-2
 */
export function checkSign(plain: string): string {
  let sum = 0;
  for (const sign of plain) sum = ((sum + CHECKED.indexOf(sign)) * 2) % 37;
  return CHECKED.charAt((38 - sum) % 37);
}

/**
 * A new code: eight signs by chance and the one that checks them; those whose check is no such sign are drawn again.
 * @param random integers 0..31, from a cryptographic source where nobody may guess the code
 */
export function drawCode(random: () => number): string {
  for (;;) {
    let drawn = '';
    for (let i = 1; i < CODE_LENGTH; i += 1) drawn += SIGNS.charAt(random());
    const check = checkSign(drawn);
    if (SIGNS.includes(check)) return drawn + check;
  }
}

/** As it is printed and read out: `K7M-4QX-2RP`. */
export function printedCode(plain: string): string {
  return plain.replace(new RegExp(`(.{${GROUP}})(?=.)`, 'g'), '$1-');
}

/** What was typed, in capitals and without blanks and dashes. */
export function plainCode(typed: string): string {
  return typed.replace(/[\s\u2010-\u2015-]/g, '').toUpperCase();
}

/**
 * A code as it was typed.
 * @returns the plain code, in capitals and without dashes
 * @throws VOUCHER_CODE_SIGN · VOUCHER_CODE_LENGTH · VOUCHER_CODE_TYPO when its check does not fit
 */
export function readCode(typed: string): string {
  const plain = plainCode(typed);
  const strange = [...plain].find((sign) => !SIGNS.includes(sign));
  const { length } = [...plain];
  // A short figure is the voucher's number: that it is no code is more than that a 0 or 1 is in it.
  if (length !== CODE_LENGTH && (strange === undefined || /^\d+$/.test(plain)))
    return refuse('VOUCHER_CODE_LENGTH', { code: plain, signs: CODE_LENGTH, given: length });
  if (strange !== undefined) return refuse('VOUCHER_CODE_SIGN', { sign: strange });
  if (checkSign(plain.slice(0, -1)) !== plain.slice(-1))
    return refuse('VOUCHER_CODE_TYPO', { code: printedCode(plain) });
  return plain;
}
