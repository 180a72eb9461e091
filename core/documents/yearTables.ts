import { stringify } from 'csv-stringify/sync';
import { currencyDigits } from '../shared/money.ts';
import type { TextKey } from '../shared/text/en.ts';
import { minorToDecimal } from '../shared/text/format.ts';
import { type Locale, say } from '../shared/text/say.ts';
import { cellText } from './csvText.ts';

/** A cell: a text as it is, an amount of money, or a plain figure with a point (`-250.5`), which no spreadsheet runs. */
export type Cell = string | { readonly minor: number } | { readonly figure: number };
export type YearTable = { readonly columns: readonly TextKey[]; readonly rows: readonly (readonly Cell[])[] };

/** A table of the year as CSV: comma, CRLF, UTF-8, amounts with a point. @source RFC 4180 */
export function yearTableCsv(made: YearTable, currency: string, locale: Locale): Uint8Array {
  const digits = currencyDigits(currency);
  function shown(cell: Cell): string {
    if (typeof cell === 'string') return cellText(cell);
    return 'minor' in cell ? minorToDecimal(cell.minor, digits) : String(cell.figure);
  }
  const text = stringify(
    made.rows.map((row) => row.map(shown)),
    { header: true, columns: made.columns.map((key) => say(locale, key)), record_delimiter: '\r\n' },
  );
  return new TextEncoder().encode(text);
}
