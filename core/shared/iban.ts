/** A text with signs between is the same account: it is kept in capitals and without blanks. */
export function plainIban(typed: string): string {
  return typed.replace(/\s/g, '').toUpperCase();
}

/**
 * True of an account number whose check digits are right: country, two digits, up to 30 letters and figures. Whether a
 * bank knows it nobody can say from here.
 * @source ISO 13616-1, 4 (form); ISO 7064 MOD 97-10 (check): the first four signs moved to the end, letters as 10 to 35,
 * leaves 1 when divided by 97
 */
export function isIban(plain: string): boolean {
  if (!/^[A-Z]{2}\d{2}[A-Z\d]{10,30}$/.test(plain)) return false;
  const figures = [...`${plain.slice(4)}${plain.slice(0, 4)}`]
    .map((sign) => Number.parseInt(sign, 36))
    .join('');
  return BigInt(figures) % 97n === 1n;
}

/** True of a bank's code by its form: eight or eleven signs. @source ISO 9362, 4 */
export function isBic(plain: string): boolean {
  return /^[A-Z\d]{4}[A-Z]{2}[A-Z\d]{2}([A-Z\d]{3})?$/.test(plain);
}

/** In groups of four, as it is read out. @source ISO 13616-1, 4: print format */
export function printedIban(plain: string): string {
  return plain.replace(/(.{4})(?=.)/g, '$1 ');
}
