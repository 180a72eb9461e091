/**
 * What splits the columns of a list: a tab or a semicolon where its first line has one, as spreadsheets write them where
 * a comma is a decimal sign; else a comma.
 */
export function delimiterOf(text: string): string {
  const [first = ''] = text.trimStart().split(/[\r\n]/, 1);
  return ['\t', ';'].find((sign) => first.includes(sign)) ?? ',';
}
