import { stringify } from 'csv-stringify/sync';
import { cellText } from './csvText.ts';

/** The figures behind a chart: a head and rows; numbers are written plain, with a point. */
export type ChartTable = {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
};

/** An amount of money, a loss too, which no spreadsheet runs and every one adds up. */
const AMOUNT = /^-?\d+(\.\d+)?$/;

/** A chart's table as CSV: comma, quotes where needed, CRLF, with a byte order mark so that spreadsheets read its letters right. @source RFC 4180 */
export function chartCsv(table: ChartTable): Uint8Array {
  const cells = [table.columns, ...table.rows].map((row) =>
    row.map((cell) => (typeof cell === 'number' || AMOUNT.test(cell) ? String(cell) : cellText(cell))),
  );
  return new TextEncoder().encode(`\uFEFF${stringify(cells, { record_delimiter: '\r\n' })}`);
}
