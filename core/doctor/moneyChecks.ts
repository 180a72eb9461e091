import { totalsOf } from '../billing/rules/totals.ts';
import { allRows } from '../db/prepared.ts';
import type { Bill, BillTotals } from '../shared/bill.ts';
import type { Check } from './check.ts';

type InvoiceRow = { id: string; number: number; bill: string; totals: string; to_pay_minor: number };

/** Figures of issued documents, their numbers, and where the money went. */
export const moneyChecks: readonly Check[] = [
  {
    name: 'invoice.figures',
    about: 'the figures of every issued document follow from its lines',
    run: (db) =>
      allRows<InvoiceRow>(
        db,
        'SELECT id, number, bill, totals, to_pay_minor FROM invoice WHERE number IS NOT NULL',
      ).flatMap((row) => {
        const wrong = wrongFigures(row);
        return wrong ? [{ subject: `document ${row.number}`, problem: wrong }] : [];
      }),
  },
  {
    name: 'invoice.numbers',
    about: 'issued documents are numbered without a gap, but for numbers that were read from paper',
    run: (db) =>
      allRows<{ number: number }>(
        db,
        `SELECT number FROM (SELECT number, lag(number) OVER (ORDER BY number) AS before FROM invoice WHERE number IS NOT NULL)
         WHERE before IS NOT NULL AND number <> before + 1
           AND number - 1 NOT IN (SELECT value FROM issue_check, json_each(issue_check.read_nos))`,
      ).map((row) => ({ subject: `document ${row.number}`, problem: 'the number before it is missing' })),
  },
  {
    name: 'invoice.tax',
    about: 'the tax rows of a document are those of its figures',
    run: (db) =>
      allRows<{ number: number }>(
        db,
        `SELECT i.number FROM invoice i WHERE i.number IS NOT NULL
         AND (SELECT coalesce(sum(tax_minor), 0) FROM invoice_tax t WHERE t.invoice_id = i.id) <> json_extract(i.totals, '$.taxMinor')`,
      ).map((row) => ({ subject: `document ${row.number}`, problem: 'tax rows do not sum to its tax' })),
  },
  {
    name: 'payment.used',
    about: 'no more of a payment is used than was taken',
    run: (db) =>
      allRows<{ id: string }>(
        db,
        `SELECT p.id FROM payment p JOIN allocation a ON a.payment_id = p.id GROUP BY p.id
         HAVING abs(sum(a.amount_minor)) > abs(p.amount_minor)`,
      ).map((row) => ({ subject: `payment ${row.id}`, problem: 'settles more than its amount' })),
  },
];

function wrongFigures(row: InvoiceRow): string | null {
  const kept = JSON.parse(row.totals) as BillTotals;
  const again = totalsOf(JSON.parse(row.bill) as Bill);
  if (again.netMinor !== kept.netMinor) return `net is ${kept.netMinor}, its lines give ${again.netMinor}`;
  if (again.taxMinor !== kept.taxMinor) return `tax is ${kept.taxMinor}, its lines give ${again.taxMinor}`;
  if (kept.withTaxMinor + kept.roundingMinor !== kept.toPayMinor)
    return 'what is to pay is not net plus tax plus rounding';
  return kept.toPayMinor === row.to_pay_minor
    ? null
    : `asks for ${row.to_pay_minor}, its figures for ${kept.toPayMinor}`;
}
