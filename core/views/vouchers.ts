import { letGoFrom } from '../billing/rules/vouchers.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { refuse } from '../shared/errors.ts';
import type { CustomerId, InvoiceId, VoucherId } from '../shared/ids.ts';
import type { LocalDay, Minor } from '../shared/units.ts';
import type { VoucherEntryRow, VoucherList, VoucherRow } from '../shared/views/vouchers.ts';
import { plainCode } from '../shared/voucherCode.ts';
import { paperTagOf } from './billingParty.ts';

type Row = Omit<VoucherRow, 'expired' | 'letGoDay' | 'mayLetGo'> & { readonly expired: number };

const VOUCHERS = `SELECT v.id, v.number, v.code, v.purpose, v.value_minor AS valueMinor, v.customer_id AS customerId,
    coalesce(c.name, '') AS customer, v.for_name AS forName, v.sold_day AS soldDay, v.last_day AS expiresDay,
    coalesce(v.last_day < :today, 0) AS expired, v.invoice_id AS invoiceId, i.number AS invoiceNumber,
    (SELECT coalesce(sum(e.amount_minor), 0) FROM voucher_entry e WHERE e.voucher_id = v.id) AS leftMinor,
    (SELECT coalesce(-sum(e.amount_minor), 0) FROM voucher_entry e
      WHERE e.voucher_id = v.id AND e.kind IN ('letGo', 'restored')) AS letGoMinor
  FROM voucher v LEFT JOIN customer c ON c.id = v.customer_id LEFT JOIN invoice i ON i.id = v.invoice_id`;

/** Those past their day of which money is still held. */
const OVER = `v.last_day < :today AND (SELECT sum(e.amount_minor) FROM voucher_entry e WHERE e.voucher_id = v.id) > 0`;

const FOUND = `WHERE (:list = 'all' OR (${OVER})) AND (:search = '' OR CAST(v.number AS TEXT) = :search OR v.code = :code
  OR instr(lower(coalesce(c.name, '') || ' ' || v.for_name), lower(:search)) > 0)`;

/** Which vouchers are looked for. */
export type VoucherSearch = {
  readonly search: string;
  readonly list: VoucherList;
  readonly today: LocalDay;
};

/** Vouchers found by number, code or the name of who bought it or whom it is for, the newest first; `holdDays` = how long after its last day the money is held. */
export function foundVouchers(
  db: ReadDb,
  asked: VoucherSearch & Asked & { readonly limit: number },
): VoucherRow[] {
  const { holdDays: _, ...rest } = asked;
  const params = { ...rest, code: plainCode(asked.search) };
  const sql = `${VOUCHERS} ${FOUND} ORDER BY v.number DESC LIMIT :limit`;
  return allRows<Row>(db, sql, params).map((row) => asRow(row, asked));
}

export function vouchersCount(db: ReadDb, asked: VoucherSearch): number {
  const sql = `SELECT count(*) AS n FROM voucher v LEFT JOIN customer c ON c.id = v.customer_id ${FOUND}`;
  return oneRow<{ n: number }>(db, sql, { ...asked, code: plainCode(asked.search) })?.n ?? 0;
}

/** The day it is, and how long after its last day the money of a voucher is held. */
type Asked = { readonly today: LocalDay; readonly holdDays: number };

export type VouchersHeld = { readonly heldMinor: Minor; readonly overMinor: Minor };

/** With tax, what is left of all vouchers, and of it what is past its day. */
export function vouchersHeld(db: ReadDb, today: LocalDay): VouchersHeld {
  const sql = `SELECT coalesce(sum(e.amount_minor), 0) AS heldMinor,
      coalesce(sum(e.amount_minor) FILTER (WHERE v.last_day < :today), 0) AS overMinor
    FROM voucher_entry e JOIN voucher v ON v.id = e.voucher_id`;
  return oneRow<VouchersHeld>(db, sql, { today }) ?? { heldMinor: 0 as Minor, overMinor: 0 as Minor };
}

/** @throws NOT_FOUND */
export function voucherRow(db: ReadDb, id: VoucherId, asked: Asked): VoucherRow {
  const row = oneRow<Row>(db, `${VOUCHERS} WHERE v.id = :id`, { id, today: asked.today });
  return row ? asRow(row, asked) : refuse('NOT_FOUND', { what: 'voucher', id });
}

const TAG = `SELECT v.customer_id AS customerId, coalesce(p.locale, i.parties ->> '$.seller.locale', '') AS tag
  FROM voucher v LEFT JOIN payment p ON p.id = v.payment_id LEFT JOIN invoice i ON i.id = v.invoice_id WHERE v.id = :id`;

/** The BCP 47 tag that a voucher is written in: that of the paper it was sold with. @throws NOT_FOUND */
export function voucherTag(db: ReadDb, id: VoucherId): string {
  const row = oneRow<{ customerId: CustomerId | null; tag: string }>(db, TAG, { id });
  return row ? row.tag || paperTagOf(db, row.customerId) : refuse('NOT_FOUND', { what: 'voucher', id });
}

function asRow(row: Row, { holdDays, today }: Asked): VoucherRow {
  const { expiresDay, leftMinor } = row;
  const letGoDay = expiresDay && letGoFrom(expiresDay, holdDays);
  const mayLetGo = leftMinor > 0 && letGoDay !== null && today >= letGoDay;
  return { ...row, expired: row.expired === 1, letGoDay, mayLetGo };
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
