import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { InvoiceId } from '../shared/ids.ts';
import type { LocalDay, Minor } from '../shared/units.ts';

/** A document on which something was still to be settled at the end of a day; below zero the shop owed it. */
export type OpenItem = {
  readonly number: number;
  readonly customer: string;
  readonly issuedDay: LocalDay;
  readonly dueDay: LocalDay;
  readonly toPayMinor: Minor;
  readonly openMinor: Minor;
};

const OPEN = `SELECT * FROM (SELECT i.number, c.name AS customer, i.issued_day AS issuedDay, i.due_day AS dueDay,
    i.to_pay_minor AS toPayMinor, i.to_pay_minor
      + coalesce((SELECT sum(k.to_pay_minor) FROM invoice k WHERE k.of_invoice_id = i.id AND k.issued_day <= :day), 0)
      - coalesce((SELECT sum(a.amount_minor) FROM allocation a WHERE a.invoice_id = i.id AND a.local_day <= :day), 0)
      AS openMinor
  FROM invoice i JOIN customer c ON c.id = i.customer_id
  WHERE i.kind <> 'credit' AND i.issued_day <= :day) WHERE openMinor <> 0 ORDER BY number`;

/** What was open at the end of a day, whatever happened since. */
export function openItemsOn(db: ReadDb, day: LocalDay): OpenItem[] {
  return allRows<OpenItem>(db, OPEN, { day });
}

/** Money of a customer that the shop still held at the end of a day: a deposit, or a credit on account. */
export type HeldItem = {
  readonly kind: 'deposit' | 'credit' | 'voucher' | 'tip';
  /** Of a tip the person whose it is, '' = everybody's. */
  readonly customer: string;
  /** Null for a credit. */
  readonly job: number | null;
  readonly takenDay: LocalDay;
  readonly receipt: number;
  readonly takenMinor: Minor;
  readonly heldMinor: Minor;
};

const HELD = `SELECT * FROM (SELECT p.kind, CASE p.kind WHEN 'tip' THEN coalesce(w.name, '') ELSE coalesce(c.name, '') END AS customer,
    j.number AS job, p.local_day AS takenDay, p.receipt,
    p.amount_minor AS takenMinor, p.amount_minor
      + coalesce((SELECT sum(r.amount_minor) FROM payment r WHERE r.of_payment_id = p.id AND r.local_day <= :day), 0)
      - coalesce((SELECT sum(a.amount_minor) FROM allocation a WHERE a.payment_id = p.id AND a.local_day <= :day), 0)
      + coalesce((SELECT sum(e.amount_minor) FROM voucher v JOIN voucher_entry e ON e.voucher_id = v.id
        WHERE v.payment_id = p.id AND e.kind IN ('letGo', 'restored') AND e.local_day <= :day), 0)
      AS heldMinor
  FROM payment p LEFT JOIN customer c ON c.id = p.customer_id LEFT JOIN job j ON j.id = p.job_id
    LEFT JOIN person w ON w.id = p.person_id
  WHERE p.kind IN ('deposit', 'credit', 'voucher', 'tip') AND p.local_day <= :day)
  WHERE heldMinor <> 0 ORDER BY kind DESC, takenDay, receipt`;

/**
 * Deposits, credits, untaxed vouchers and tips held at the end of a day, whatever happened since: in all what the journal then owes on its
 * accounts of deposits and of credits, for untaxed vouchers and for tips. Prepayment invoices are no part of it; the journal books them as invoices.
 */
export function heldOn(db: ReadDb, day: LocalDay): HeldItem[] {
  return allRows<HeldItem>(db, HELD, { day });
}

const ISSUED = `SELECT id FROM invoice WHERE issued_day >= :fromDay AND issued_day <= :toDay ORDER BY number`;

export function issuedIn(db: ReadDb, fromDay: LocalDay, toDay: LocalDay): InvoiceId[] {
  return allRows<{ readonly id: InvoiceId }>(db, ISSUED, { fromDay, toDay }).map((row) => row.id);
}

/** The first and the last number issued in a period; null where none was. */
export function numbersIn(
  db: ReadDb,
  fromDay: LocalDay,
  toDay: LocalDay,
): { readonly first: number; readonly last: number } | null {
  const sql = `SELECT min(number) AS first, max(number) AS last FROM invoice
    WHERE issued_day >= :fromDay AND issued_day <= :toDay`;
  const row = oneRow<{ first: number | null; last: number | null }>(db, sql, { fromDay, toDay });
  return row?.first && row.last ? { first: row.first, last: row.last } : null;
}
