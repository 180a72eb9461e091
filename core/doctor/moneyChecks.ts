import { totalsOf } from '../billing/rules/totals.ts';
import { allRows } from '../db/prepared.ts';
import type { Bill, BillTotals } from '../shared/bill.ts';
import { documentGaps } from '../views/documentGaps.ts';
import { LEFT_OF_PAYMENT } from '../views/heldMoney.ts';
import type { Check } from './check.ts';

type InvoiceRow = { id: string; number: number; bill: string; totals: string; to_pay_minor: number };

/** What was let go of a voucher `v`, below zero, and not held again. */
const LET_GO = `(SELECT coalesce(sum(g.amount_minor), 0) FROM voucher_entry g
  WHERE g.voucher_id = v.id AND g.kind IN ('letGo', 'restored'))`;

/** Figures of issued documents, their numbers, and where the money went. */
export const moneyChecks: readonly Check[] = [
  {
    name: 'invoice.figures',
    run: (db) =>
      allRows<InvoiceRow>(
        db,
        'SELECT id, number, bill, totals, to_pay_minor FROM invoice WHERE number IS NOT NULL',
      ).flatMap((row) => {
        const wrong = wrongFigures(row);
        return wrong ? [{ document: String(row.number), ...wrong }] : [];
      }),
  },
  {
    name: 'invoice.numbers',
    run: (db) => documentGaps(db).map(({ last }) => ({ document: String(last + 1) })),
  },
  {
    name: 'invoice.tax',
    run: (db) =>
      allRows<{ number: number }>(
        db,
        `SELECT i.number FROM invoice i WHERE i.number IS NOT NULL
         AND (SELECT coalesce(sum(tax_minor), 0) FROM invoice_tax t WHERE t.invoice_id = i.id) <> json_extract(i.totals, '$.taxMinor')`,
      ).map((row) => ({ document: String(row.number) })),
  },
  {
    name: 'payment.used',
    run: (db) =>
      allRows<{ receipt: number }>(
        db,
        `SELECT p.receipt FROM payment p JOIN allocation a ON a.payment_id = p.id GROUP BY p.id
         HAVING abs(sum(a.amount_minor)) > abs(p.amount_minor)`,
      ).map((row) => ({ receipt: String(row.receipt) })),
  },
  {
    name: 'voucher.balance',
    run: (db) =>
      allRows<{ number: number; kept: number; held: number }>(
        db,
        `SELECT number, kept, held FROM (SELECT v.number,
           (SELECT coalesce(sum(e.amount_minor), 0) FROM voucher_entry e WHERE e.voucher_id = v.id) AS kept,
           ${LEFT_OF_PAYMENT} + ${LET_GO} AS held
         FROM voucher v JOIN payment p ON p.id = v.payment_id) WHERE kept <> held`,
      ),
  },
  {
    name: 'voucher.letGo',
    run: (db) =>
      allRows<{ number: number; day: string }>(
        db,
        `SELECT v.number, e.local_day AS day FROM voucher_entry e JOIN voucher v ON v.id = e.voucher_id
         WHERE e.kind = 'letGo' AND e.local_day <= coalesce(v.expires_day, e.local_day)
         UNION ALL SELECT v.number, 'none' FROM voucher v WHERE ${LET_GO} > 0`,
      ),
  },
  {
    name: 'voucher.day',
    run: (db) =>
      allRows<{ number: number; day: string; document: string; issued: string }>(
        db,
        `SELECT v.number, e.local_day AS day, CAST(i.number AS TEXT) AS document, i.issued_day AS issued
         FROM voucher v JOIN voucher_entry e ON e.voucher_id = v.id JOIN invoice i ON i.id = e.invoice_id
         WHERE v.purpose = 'single' AND e.local_day <> i.issued_day`,
      ),
  },
  {
    name: 'voucher.net',
    run: (db) =>
      allRows<{ number: number; kept: number; net: number }>(
        db,
        `SELECT * FROM (SELECT v.number, sum(e.amount_minor) AS kept, sum(e.net_minor) AS net
         FROM voucher v JOIN voucher_entry e ON e.voucher_id = v.id WHERE v.purpose = 'single' GROUP BY v.id)
         WHERE net NOT BETWEEN 0 AND kept`,
      ),
  },
];

type Wrong = {
  readonly what: 'net' | 'tax' | 'sum' | 'asked';
  readonly kept: number;
  readonly again: number;
};

/** The first kept figure that its document's lines do not give, in minor units. */
function wrongFigures(row: InvoiceRow): Wrong | undefined {
  const kept = JSON.parse(row.totals) as BillTotals;
  const again = totalsOf(JSON.parse(row.bill) as Bill);
  const figures: readonly Wrong[] = [
    { what: 'net', kept: kept.netMinor, again: again.netMinor },
    { what: 'tax', kept: kept.taxMinor, again: again.taxMinor },
    { what: 'sum', kept: kept.toPayMinor, again: kept.withTaxMinor + kept.roundingMinor },
    { what: 'asked', kept: row.to_pay_minor, again: kept.toPayMinor },
  ];
  return figures.find((figure) => figure.kept !== figure.again);
}
