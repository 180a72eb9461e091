import type { Laid } from '../billing/rules/taxReport.ts';
import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { LocalDay, Minor } from '../shared/units.ts';
import type { InvoiceKind, PaymentKind, PaymentWay } from '../shared/views/billing.ts';
import type { TaxReportRow } from '../shared/views/billingReports.ts';

/** Tax by rate of the documents issued in a period. */
export function taxOfInvoices(db: ReadDb, fromDay: LocalDay, toDay: LocalDay): TaxReportRow[] {
  return allRows<TaxReportRow>(
    db,
    `SELECT t.category, t.rate_ppm AS ratePpm, t.name, sum(t.taxable_minor) AS taxableMinor,
      sum(t.tax_minor) AS taxMinor, sum(t.net_minor) AS netMinor, count(*) AS documents
    FROM invoice i JOIN invoice_tax t ON t.invoice_id = i.id
    WHERE i.issued_day BETWEEN :fromDay AND :toDay
    GROUP BY t.category, t.rate_ppm, t.name ORDER BY t.category, t.rate_ppm DESC`,
    { fromDay, toDay },
  );
}

/** All money laid on the documents on which some was laid in a period: document by document, as it came. */
export function laidOn(db: ReadDb, fromDay: LocalDay, toDay: LocalDay): Laid[] {
  return allRows<Laid>(
    db,
    `SELECT invoice_id AS invoiceId, amount_minor AS amountMinor,
      local_day BETWEEN :fromDay AND :toDay AS within FROM allocation
    WHERE invoice_id IN (SELECT invoice_id FROM allocation WHERE local_day BETWEEN :fromDay AND :toDay)
    ORDER BY invoice_id, id`,
    { fromDay, toDay },
  );
}

export type InvoiceTaxRow = Omit<TaxReportRow, 'documents'> & { readonly invoiceId: string };

const TAX_ROWS = `SELECT t.invoice_id AS invoiceId, t.category, t.rate_ppm AS ratePpm, t.name,
  t.taxable_minor AS taxableMinor, t.tax_minor AS taxMinor, t.net_minor AS netMinor FROM invoice_tax t`;

/** Tax by rate of each document issued in a period, by its id. */
export function taxesIssued(db: ReadDb, fromDay: LocalDay, toDay: LocalDay): TaxesById {
  const sql = `${TAX_ROWS} JOIN invoice i ON i.id = t.invoice_id WHERE i.issued_day BETWEEN :fromDay AND :toDay`;
  return byInvoice(allRows<InvoiceTaxRow>(db, sql, { fromDay, toDay }));
}

export type SettledTaxRow = InvoiceTaxRow & { readonly toPayMinor: number };

/**
 * Tax by rate of each document on which money was laid in a period, with what is to be paid for it, by its id; without
 * those that ask for nothing.
 */
export function taxesSettled(
  db: ReadDb,
  fromDay: LocalDay,
  toDay: LocalDay,
): ReadonlyMap<string, readonly SettledTaxRow[]> {
  const sql = `SELECT t.invoice_id AS invoiceId, t.category, t.rate_ppm AS ratePpm, t.name,
      t.taxable_minor AS taxableMinor, t.tax_minor AS taxMinor, t.net_minor AS netMinor, i.to_pay_minor AS toPayMinor
    FROM invoice_tax t JOIN invoice i INDEXED BY invoice_asked ON i.id = t.invoice_id
    WHERE i.to_pay_minor <> 0
      AND t.invoice_id IN (SELECT invoice_id FROM allocation WHERE local_day BETWEEN :fromDay AND :toDay)`;
  return Map.groupBy(allRows<SettledTaxRow>(db, sql, { fromDay, toDay }), (row) => row.invoiceId);
}

/**
 * Tax by rate of the documents issued in a period that asked for nothing, as a prepayment or a taxed voucher covered all
 * of them, and of their credit notes. No money ever comes for one: where the rate changed since, the difference of the
 * rates is due when it is issued.
 */
export function taxOfUnasked(db: ReadDb, fromDay: LocalDay, toDay: LocalDay): TaxReportRow[] {
  return allRows<TaxReportRow>(
    db,
    `SELECT t.category, t.rate_ppm AS ratePpm, t.name, sum(t.taxable_minor) AS taxableMinor,
      sum(t.tax_minor) AS taxMinor, sum(t.net_minor) AS netMinor, count(*) AS documents
    FROM invoice i JOIN invoice_tax t ON t.invoice_id = i.id
    WHERE i.to_pay_minor = 0 AND i.issued_day BETWEEN :fromDay AND :toDay
      AND (t.taxable_minor <> 0 OR t.tax_minor <> 0)
      AND (i.of_invoice_id IS NULL OR (SELECT o.to_pay_minor FROM invoice o WHERE o.id = i.of_invoice_id) = 0)
    GROUP BY t.category, t.rate_ppm, t.name`,
    { fromDay, toDay },
  );
}

/** Tax by rate of documents, by their ids; a document without any is not in it. */
export type TaxesById = ReadonlyMap<string, readonly InvoiceTaxRow[]>;

function byInvoice(rows: readonly InvoiceTaxRow[]): TaxesById {
  return Map.groupBy(rows, (row) => row.invoiceId);
}

/** An issued document as the journal books it. */
export type BookedInvoice = {
  readonly id: string;
  readonly number: number;
  readonly kind: InvoiceKind;
  readonly day: LocalDay;
  readonly customer: string;
  readonly toPayMinor: Minor;
};

export function bookedInvoices(db: ReadDb, fromDay: LocalDay, toDay: LocalDay): BookedInvoice[] {
  return allRows<BookedInvoice>(
    db,
    `SELECT i.id, i.number, i.kind, i.issued_day AS day, i.to_pay_minor AS toPayMinor,
      json_extract(i.parties, '$.customer.name') AS customer
    FROM invoice i WHERE i.issued_day BETWEEN :fromDay AND :toDay ORDER BY i.number`,
    { fromDay, toDay },
  );
}

/** Money in or out; `ofKind` is what a refund gives back, null for one on a document. */
export type BookedPayment = {
  readonly id: string;
  readonly receipt: number;
  readonly day: LocalDay;
  readonly kind: PaymentKind;
  readonly way: PaymentWay;
  readonly amountMinor: Minor;
  readonly customer: string;
  readonly ofKind: PaymentKind | null;
};

export function bookedPayments(db: ReadDb, fromDay: LocalDay, toDay: LocalDay): BookedPayment[] {
  return allRows<BookedPayment>(
    db,
    `SELECT p.id, p.receipt, p.local_day AS day, p.kind, p.way, p.amount_minor AS amountMinor, coalesce(c.name, '') AS customer,
      (SELECT o.kind FROM payment o WHERE o.id = p.of_payment_id) AS ofKind
    FROM payment p LEFT JOIN customer c ON c.id = p.customer_id
    WHERE p.local_day BETWEEN :fromDay AND :toDay ORDER BY p.at_ms, p.id`,
    { fromDay, toDay },
  );
}

/** Deposits, credits and untaxed vouchers laid on documents: a liability that becomes payment. */
export type BookedUse = {
  readonly day: LocalDay;
  readonly number: number;
  readonly receipt: number;
  readonly kind: 'deposit' | 'credit' | 'voucher';
  readonly amountMinor: Minor;
  readonly customer: string;
};

export function bookedUses(db: ReadDb, fromDay: LocalDay, toDay: LocalDay): BookedUse[] {
  return allRows<BookedUse>(
    db,
    `SELECT a.local_day AS day, i.number, p.receipt, p.kind, a.amount_minor AS amountMinor, coalesce(c.name, '') AS customer
    FROM allocation a JOIN payment p ON p.id = a.payment_id JOIN invoice i ON i.id = a.invoice_id
      LEFT JOIN customer c ON c.id = p.customer_id
    WHERE p.kind IN ('deposit', 'credit', 'voucher') AND a.local_day BETWEEN :fromDay AND :toDay ORDER BY a.id`,
    { fromDay, toDay },
  );
}
