import { allRows, oneRow } from '../../db/prepared.ts';
import { addRow } from '../../db/rows.ts';
import { allocation, payment } from '../../db/schema/billing.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import type { CustomerId, InvoiceId, JobId, PersonId } from '../../shared/ids.ts';
import type { Minor } from '../../shared/units.ts';

export type NewPayment = typeof payment.$inferInsert;
/** Money held for later: what is left of a deposit or credit after use and refunds. */
export type HeldMoney = {
  readonly id: string;
  readonly customerId: CustomerId | null;
  readonly leftMinor: Minor;
};

export function addPayment(db: WriteDb, row: NewPayment): void {
  addRow(db, payment, row);
}

export function addAllocation(db: WriteDb, row: Omit<typeof allocation.$inferInsert, 'id'>): void {
  addRow(db, allocation, row);
}

const HELD = `SELECT p.id, p.customer_id AS customerId, p.amount_minor
    + coalesce((SELECT sum(r.amount_minor) FROM payment r WHERE r.of_payment_id = p.id), 0)
    - coalesce((SELECT sum(a.amount_minor) FROM allocation a WHERE a.payment_id = p.id), 0) AS leftMinor
  FROM payment p`;

/** Deposits of a job that are not used up, oldest first. */
export function heldDeposits(db: ReadDb, jobId: JobId): HeldMoney[] {
  const rows = allRows<HeldMoney>(
    db,
    `${HELD} WHERE p.kind = 'deposit' AND p.job_id = :jobId ORDER BY p.at_ms, p.id`,
    {
      jobId,
    },
  );
  return rows.filter((r) => r.leftMinor > 0);
}

/** Credits on account of a customer that are not used up, oldest first. */
export function heldCredits(db: ReadDb, customerId: CustomerId): HeldMoney[] {
  const rows = allRows<HeldMoney>(
    db,
    `${HELD} WHERE p.kind = 'credit' AND p.customer_id = :customerId ORDER BY p.at_ms, p.id`,
    { customerId },
  );
  return rows.filter((r) => r.leftMinor > 0);
}

/** Tips of a person that were not paid out, oldest first; null = those that everybody shares. */
export function heldTips(db: ReadDb, personId: PersonId | null): HeldMoney[] {
  const sql = `${HELD} WHERE p.kind = 'tip' AND p.person_id IS :personId ORDER BY p.at_ms, p.id`;
  return allRows<HeldMoney>(db, sql, { personId }).filter((r) => r.leftMinor > 0);
}

/** Money laid on a document so far, refunds taken off. */
export function allocatedTo(db: ReadDb, invoiceId: InvoiceId): Minor {
  const row = oneRow<{ total: number }>(
    db,
    'SELECT coalesce(sum(amount_minor), 0) AS total FROM allocation WHERE invoice_id = :invoiceId',
    { invoiceId },
  );
  return (row?.total ?? 0) as Minor;
}
