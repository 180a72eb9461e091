import type { InvoiceId } from '#core/shared/ids.ts';
import { agreedJob } from '../helpers/billing.ts';
import { openTestShop, type TestShop } from '../helpers/shop.ts';
import { type BenchRow, ms, timed } from './measure.ts';

const DOCUMENTS = 20_000;
const ISSUED = 60;
const YEAR = { fromDay: '2026-01-01', toDay: '2026-12-31' };

/** Issuing, printing, and the reports of a year of 20,000 documents, each paid in two parts. */
export async function rows(): Promise<readonly BenchRow[]> {
  const shop = openTestShop();
  try {
    const drafts = Array.from({ length: ISSUED + ISSUED / 10 + 1 }, () => draft(shop));
    const issue = await timed(ISSUED, (i) => {
      const invoiceId = drafts.at(i) as InvoiceId;
      return shop.write('billing.issueInvoice', { invoiceId, revision: 1, aheadOfWork: true });
    });
    const invoiceId = drafts[0] as InvoiceId;
    const pdf = await timed(30, () => shop.read('billing.invoiceFile', { invoiceId }));
    fill(shop, invoiceId);
    const issued = await timed(20, () => shop.read('billing.readTaxReport', { ...YEAR, basis: 'invoice' }));
    const paid = await timed(10, () => shop.read('billing.readTaxReport', { ...YEAR, basis: 'payment' }));
    const journal = await timed(5, () => shop.read('billing.journalFile', YEAR));
    return [
      row('issue an invoice, without its PDF', issue, '≤ 20 ms'),
      row('an invoice as a PDF', pdf, '≤ 300 ms'),
      row('tax of a year of 20,000 documents, as issued', issued, '≤ 200 ms'),
      row('the same by the money of 40,000 payments', paid, '≤ 200 ms'),
      row('the journal of that year as CSV', journal),
    ];
  } finally {
    shop.close();
  }
}

function row(what: string, took: { readonly p50: number; readonly p95: number }, asked?: string): BenchRow {
  const measured = `${ms(took.p50)} (p95 ${ms(took.p95)})`;
  return asked === undefined ? { what, measured } : { what, measured, asked };
}

function draft(shop: TestShop): InvoiceId {
  return shop.write('billing.draftInvoice', { jobId: agreedJob(shop).jobId }).invoiceId;
}

/** Copies one issued document over the days of a year, with its tax and two payments each. */
function fill(shop: TestShop, invoiceId: InvoiceId): void {
  const { raw } = shop.db;
  const numbers = `WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ${DOCUMENTS})`;
  const day = "date('2026-01-01', '+' || (n.i % 365) || ' days')";
  raw.exec(`DROP TRIGGER invoice_born_unnumbered;
    ${numbers} INSERT INTO invoice (id, kind, number, customer_id, bill, totals, to_pay_minor, parties, issued_ms,
      issued_day, due_day, made_ms)
      SELECT printf('b%019d', n.i), 'invoice', 1000 + n.i, customer_id, bill, totals, to_pay_minor, parties, issued_ms,
        ${day}, ${day}, made_ms FROM n, invoice o WHERE o.id = '${invoiceId}';
    INSERT INTO invoice_tax SELECT i.id, t.category, t.rate_ppm, t.name, t.taxable_minor, t.tax_minor, t.net_minor
      FROM invoice i, invoice_tax t WHERE i.number > 1000 AND t.invoice_id = '${invoiceId}';`);
  for (const part of [1, 2])
    raw.exec(`INSERT INTO payment (id, receipt, kind, way, amount_minor, customer_id, at_ms, local_day, note)
        SELECT 'p${part}' || substr(id, 3), number * 2 + ${part}, 'payment', 'card', to_pay_minor / 2, customer_id,
          issued_ms, issued_day, '' FROM invoice WHERE number > 1000;
      INSERT INTO allocation (payment_id, invoice_id, amount_minor, at_ms, local_day)
        SELECT 'p${part}' || substr(id, 3), id, to_pay_minor / 2, issued_ms, issued_day
        FROM invoice WHERE number > 1000;`);
}
