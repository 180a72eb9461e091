/**
 * A text as a cell of a list: one that a spreadsheet would run as a formula gets an apostrophe in front.
 * @source common practice, no source; RFC 4180 says nothing of formulas
 */
export function cellText(text: string): string {
  return /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
}
