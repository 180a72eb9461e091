import { stringify } from 'csv-stringify/sync';
import { currencyDigits } from '../shared/money.ts';
import type { TextKey } from '../shared/text/en.ts';
import { minorToDecimal } from '../shared/text/format.ts';
import { type Locale, say } from '../shared/text/say.ts';
import { cellText } from './csvText.ts';

/** A cell: a text as it is, or an amount of money. */
export type Cell = string | { readonly minor: number };
export type YearTable = { readonly columns: readonly TextKey[]; readonly rows: readonly (readonly Cell[])[] };

/** A table of the year as CSV: comma, CRLF, UTF-8, amounts with a point. @source RFC 4180 */
export function yearTableCsv(made: YearTable, currency: string, locale: Locale): Uint8Array {
  const digits = currencyDigits(currency);
  const shown = (cell: Cell): string =>
    typeof cell === 'string' ? cellText(cell) : minorToDecimal(cell.minor, digits);
  const text = stringify(
    made.rows.map((row) => row.map(shown)),
    { header: true, columns: made.columns.map((key) => say(locale, key)), record_delimiter: '\r\n' },
  );
  return new TextEncoder().encode(text);
}
