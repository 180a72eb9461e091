import { stringify } from 'csv-stringify/sync';
import { currencyDigits } from '../shared/money.ts';
import type { Account } from '../shared/settings/accounts.ts';
import { minorToDecimal } from '../shared/text/format.ts';
import { type Locale, say } from '../shared/text/say.ts';
import { cellText } from './csvText.ts';

const COLUMNS = [
  'day',
  'document',
  'text',
  'code',
  'account',
  'rate',
  'debit',
  'credit',
  'currency',
] as const;

/** One side of a booking as it is written. */
export type JournalRow = {
  readonly day: string;
  readonly document: string;
  readonly text: string;
  readonly account: Account;
  readonly ratePpm: number | null;
  readonly debitMinor: number;
  readonly creditMinor: number;
};

/**
 * Bookings as CSV: comma, quotes where needed, CRLF, UTF-8. Amounts with a point; a text that a spreadsheet would
 * run as a formula gets an apostrophe in front. Each account has its number in the shop's chart and its name.
 * @source RFC 4180
 */
export function csvJournal(
  rows: readonly JournalRow[],
  codes: Readonly<Record<Account, string>>,
  currency: string,
  locale: Locale,
): string {
  const digits = currencyDigits(currency);
  const amount = (minor: number): string => (minor === 0 ? '' : minorToDecimal(minor, digits));
  return stringify(
    rows.map((row) => [
      row.day,
      cellText(row.document),
      cellText(row.text),
      codes[row.account],
      say(locale, `doc.account.${row.account}`),
      row.ratePpm === null ? '' : String(row.ratePpm / 10_000),
      amount(row.debitMinor),
      amount(row.creditMinor),
      currency,
    ]),
    {
      header: true,
      columns: COLUMNS.map((column) => say(locale, `doc.journal.${column}`)),
      record_delimiter: '\r\n',
    },
  );
}
