import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { refuse } from '../shared/errors.ts';
import type { CustomerId, InvoiceId, VoucherId } from '../shared/ids.ts';
import type { LocalDay, Minor } from '../shared/units.ts';
import type { VoucherEntryRow, VoucherRow } from '../shared/views/vouchers.ts';
import { paperTagOf } from './billingParty.ts';

type Row = Omit<VoucherRow, 'expired'> & { readonly expired: number };

const VOUCHERS = `SELECT v.id, v.number, v.purpose, v.value_minor AS valueMinor, v.customer_id AS customerId,
    c.name AS customer, v.for_name AS forName, v.sold_day AS soldDay, v.expires_day AS expiresDay,
    coalesce(v.expires_day < :today, 0) AS expired, v.invoice_id AS invoiceId, i.number AS invoiceNumber,
    (SELECT coalesce(sum(e.amount_minor), 0) FROM voucher_entry e WHERE e.voucher_id = v.id) AS leftMinor
  FROM voucher v JOIN customer c ON c.id = v.customer_id LEFT JOIN invoice i ON i.id = v.invoice_id`;

const FOUND = `WHERE :search = '' OR CAST(v.number AS TEXT) = :search
  OR instr(lower(c.name || ' ' || v.for_name), lower(:search)) > 0`;

/** Vouchers found by number or by the name of who bought it or whom it is for, the newest first. */
export function foundVouchers(
  db: ReadDb,
  { search, limit, today }: { readonly search: string; readonly limit: number; readonly today: LocalDay },
): VoucherRow[] {
  const sql = `${VOUCHERS} ${FOUND} ORDER BY v.number DESC LIMIT :limit`;
  return allRows<Row>(db, sql, { search, limit, today }).map(asRow);
}

export function vouchersCount(db: ReadDb, search: string): number {
  const sql = `SELECT count(*) AS n FROM voucher v JOIN customer c ON c.id = v.customer_id ${FOUND}`;
  return oneRow<{ n: number }>(db, sql, { search })?.n ?? 0;
}

/** With tax, of all vouchers that are still taken. */
export function vouchersHeld(db: ReadDb, today: LocalDay): Minor {
  const sql = `SELECT coalesce(sum(e.amount_minor), 0) AS total FROM voucher_entry e
    JOIN voucher v ON v.id = e.voucher_id WHERE coalesce(v.expires_day >= :today, 1)`;
  return oneRow<{ total: Minor }>(db, sql, { today })?.total ?? (0 as Minor);
}

/** @throws NOT_FOUND */
export function voucherRow(db: ReadDb, id: VoucherId, today: LocalDay): VoucherRow {
  const row = oneRow<Row>(db, `${VOUCHERS} WHERE v.id = :id`, { id, today });
  return row ? asRow(row) : refuse('NOT_FOUND', { what: 'voucher', id });
}

const TAG = `SELECT v.customer_id AS customerId, coalesce(p.locale, i.parties ->> '$.seller.locale', '') AS tag
  FROM voucher v LEFT JOIN payment p ON p.id = v.payment_id LEFT JOIN invoice i ON i.id = v.invoice_id WHERE v.id = :id`;

/** The BCP 47 tag that a voucher is written in: that of the paper it was sold with. @throws NOT_FOUND */
export function voucherTag(db: ReadDb, id: VoucherId): string {
  const row = oneRow<{ customerId: CustomerId; tag: string }>(db, TAG, { id });
  return row ? row.tag || paperTagOf(db, row.customerId) : refuse('NOT_FOUND', { what: 'voucher', id });
}

function asRow(row: Row): VoucherRow {
  return { ...row, expired: row.expired === 1 };
}

const ENTRIES = `SELECT e.kind, e.amount_minor AS amountMinor, e.at_ms AS atMs, coalesce(p.name, '') AS by,
    e.invoice_id AS invoiceId, i.number AS invoiceNumber
  FROM voucher_entry e LEFT JOIN person p ON p.id = e.by_id LEFT JOIN invoice i ON i.id = e.invoice_id
  WHERE e.voucher_id = :id ORDER BY e.seq`;

/** What became of a voucher, in its order. */
export function voucherEntriesOf(db: ReadDb, id: VoucherId): VoucherEntryRow[] {
  return allRows<VoucherEntryRow>(db, ENTRIES, { id });
}

export type VoucherPart = { readonly number: number; readonly amountMinor: Minor };

/** Untaxed vouchers that paid on a document, with what of it they have not been given back. */
export function vouchersUsedOn(db: ReadDb, invoiceId: InvoiceId): VoucherPart[] {
  return allRows<VoucherPart>(
    db,
    `SELECT v.number, -sum(e.amount_minor) AS amountMinor FROM voucher_entry e JOIN voucher v ON v.id = e.voucher_id
    WHERE e.invoice_id = :invoiceId AND v.purpose = 'multi' GROUP BY v.id HAVING sum(e.amount_minor) < 0 ORDER BY v.number`,
    { invoiceId },
  );
}
