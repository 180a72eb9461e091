import { eq } from 'drizzle-orm';
import { allRows, oneRow } from '../../db/prepared.ts';
import { addRow } from '../../db/rows.ts';
import { voucher, voucherEntry } from '../../db/schema/vouchers.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import { refuse } from '../../shared/errors.ts';
import type { CustomerId, InvoiceId, VoucherId } from '../../shared/ids.ts';
import type { VoucherPurpose } from '../../shared/settings/billing.ts';
import type { LocalDay, Minor } from '../../shared/units.ts';

/** A voucher with its balance. */
export type VoucherRecord = {
  readonly id: VoucherId;
  readonly number: number;
  readonly code: string;
  readonly purpose: VoucherPurpose;
  readonly valueMinor: Minor;
  readonly customerId: CustomerId | null;
  readonly paymentId: string | null;
  readonly invoiceId: InvoiceId | null;
  readonly soldDay: LocalDay;
  readonly expiresDay: LocalDay | null;
  readonly leftMinor: Minor;
  readonly netMinor: Minor;
};

const VOUCHER = `SELECT v.id, v.number, v.code, v.purpose, v.value_minor AS valueMinor, v.customer_id AS customerId,
    v.payment_id AS paymentId, v.invoice_id AS invoiceId, v.sold_day AS soldDay, v.last_day AS expiresDay,
    (SELECT coalesce(sum(e.amount_minor), 0) FROM voucher_entry e WHERE e.voucher_id = v.id) AS leftMinor,
    (SELECT coalesce(sum(e.net_minor), 0) FROM voucher_entry e WHERE e.voucher_id = v.id) AS netMinor
  FROM voucher v`;

/** @throws NOT_FOUND */
export function voucherOf(db: ReadDb, id: VoucherId): VoucherRecord {
  const row = oneRow<VoucherRecord>(db, `${VOUCHER} WHERE v.id = :id`, { id });
  return row ?? refuse('NOT_FOUND', { what: 'voucher', id });
}

/** @throws VOUCHER_UNKNOWN */
export function voucherNumbered(db: ReadDb, number: number): VoucherRecord {
  const row = oneRow<VoucherRecord>(db, `${VOUCHER} WHERE v.number = :number`, { number });
  return row ?? refuse('VOUCHER_UNKNOWN', { number });
}

/** By its plain code. */
export function voucherCoded(db: ReadDb, code: string): VoucherRecord | undefined {
  return oneRow<VoucherRecord>(db, `${VOUCHER} WHERE v.code = :code`, { code });
}

/** The single-purpose voucher that an invoice sold. */
export function voucherSoldOn(db: ReadDb, invoiceId: InvoiceId): VoucherRecord | undefined {
  return oneRow<VoucherRecord>(db, `${VOUCHER} WHERE v.invoice_id = :invoiceId`, { invoiceId });
}

export function addVoucher(db: WriteDb, row: typeof voucher.$inferInsert): void {
  addRow(db, voucher, row);
}

export function addVoucherEntry(db: WriteDb, row: Omit<typeof voucherEntry.$inferInsert, 'seq'>): void {
  addRow(db, voucherEntry, row);
}

/** The sum of what a document took off a voucher and gave back to it, by voucher; below zero while something is off. */
export type OnDocument = {
  readonly voucherId: VoucherId;
  readonly amountMinor: Minor;
  readonly netMinor: Minor;
};

export function usesOn(db: ReadDb, invoiceId: InvoiceId): OnDocument[] {
  return allRows<OnDocument>(
    db,
    `SELECT voucher_id AS voucherId, sum(amount_minor) AS amountMinor, sum(net_minor) AS netMinor
    FROM voucher_entry WHERE kind IN ('used', 'returned')
      AND (invoice_id = :invoiceId OR invoice_id IN (SELECT id FROM invoice WHERE of_invoice_id = :invoiceId))
    GROUP BY voucher_id HAVING sum(amount_minor) <> 0 ORDER BY min(seq)`,
    { invoiceId },
  );
}

/** Takes the names of those it was for off the vouchers that somebody bought. */
export function eraseVoucherNames(db: WriteDb, customerId: CustomerId): void {
  db.orm.update(voucher).set({ forName: '' }).where(eq(voucher.customerId, customerId)).run();
}

/** Takes a voucher until a later day than its sheet says. */
export function saveLateDay(db: WriteDb, id: VoucherId, lateDay: LocalDay): void {
  db.orm.update(voucher).set({ lateDay }).where(eq(voucher.id, id)).run();
}

/** What was let go of a voucher and not held again, 0 or below: with tax and, of a taxed one, before it. */
export function letGoOf(db: ReadDb, voucherId: VoucherId): Balance {
  const sql = `SELECT coalesce(sum(amount_minor), 0) AS amountMinor, coalesce(sum(net_minor), 0) AS netMinor
    FROM voucher_entry WHERE voucher_id = :voucherId AND kind IN ('letGo', 'restored')`;
  return oneRow<Balance>(db, sql, { voucherId }) ?? { amountMinor: 0 as Minor, netMinor: 0 as Minor };
}
type Balance = { readonly amountMinor: Minor; readonly netMinor: Minor };
