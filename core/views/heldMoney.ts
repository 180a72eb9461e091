import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { CustomerId, JobId } from '../shared/ids.ts';
import type { Minor } from '../shared/units.ts';
import type { HeldCredit, HeldDeposit, HeldTip } from '../shared/views/moneyDesk.ts';
import type { JobState } from '../shared/vocabulary.ts';

/** What is left of a payment `p` after refunds of it and what was laid on documents. */
export const LEFT_OF_PAYMENT = `p.amount_minor
    + coalesce((SELECT sum(r.amount_minor) FROM payment r WHERE r.of_payment_id = p.id), 0)
    - coalesce((SELECT sum(a.amount_minor) FROM allocation a WHERE a.payment_id = p.id), 0)`;

/** What a document asks for after its credit notes; null without any. `of` is the alias of its invoice row. */
function afterCredits(of: string): string {
  return `${of}.to_pay_minor + (SELECT sum(k.to_pay_minor) FROM invoice k
    WHERE k.of_invoice_id = ${of}.id AND k.number IS NOT NULL)`;
}

/** True of a document with a line for a prepayment, a partial invoice or a taxed voucher. */
function takesOff(of: string): string {
  return `EXISTS (SELECT 1 FROM json_each(${of}.bill, '$.lines') o WHERE o.value ->> 'what' IN ('deposit', 'billed', 'voucher'))`;
}

/**
 * True when credit notes took all of a document; one that asks for nothing is not credited by that, nor one whose
 * prepayments, partial invoices and vouchers no note gave back.
 */
export function whollyCredited(of: string): string {
  return `((${afterCredits(of)} = 0) IS TRUE AND (NOT ${takesOff(of)} OR EXISTS (SELECT 1 FROM invoice k
    WHERE k.of_invoice_id = ${of}.id AND k.number IS NOT NULL AND ${takesOff('k')})))`;
}

/**
 * Money held for jobs, a row for each plain deposit and each prepayment invoice that no standing final invoice has
 * taken off. Of a prepayment invoice counts what was paid of what its credit notes left.
 */
const DEPOSITS = `SELECT p.job_id AS jobId, p.customer_id AS customerId, ${LEFT_OF_PAYMENT} AS heldMinor
  FROM payment p WHERE p.kind = 'deposit'
  UNION ALL
  SELECT i.job_id, i.customer_id, CASE WHEN EXISTS (SELECT 1 FROM deduction d JOIN invoice f ON f.id = d.invoice_id
      WHERE d.prepayment_id = i.id AND NOT ${whollyCredited('f')}) THEN 0
    ELSE min(coalesce(${afterCredits('i')}, i.to_pay_minor),
      coalesce((SELECT sum(a.amount_minor) FROM allocation a WHERE a.invoice_id = i.id), 0)) END
  FROM invoice i WHERE i.kind = 'prepayment' AND +i.number IS NOT NULL`;

/** Held as deposits of a job now, as {@link DEPOSITS} counts; null when none was ever taken. */
export const HELD_FOR_JOB = `(SELECT sum(heldMinor) FROM (${DEPOSITS}) WHERE jobId = :jobId)`;

export type JobDeposit = Omit<HeldDeposit, 'over'> & { readonly jobState: JobState };

/** Deposits held, by job. */
export function depositsHeld(db: ReadDb): JobDeposit[] {
  return allRows<JobDeposit>(
    db,
    `SELECT j.id AS jobId, j.number AS jobNumber, c.name AS customer, j.state AS jobState,
      h.heldMinor
    FROM (SELECT jobId, sum(heldMinor) AS heldMinor FROM (${DEPOSITS}) GROUP BY jobId HAVING sum(heldMinor) > 0) h
      CROSS JOIN job j ON j.id = h.jobId JOIN customer c ON c.id = j.customer_id ORDER BY j.number`,
  );
}

/** Held as deposits of a job, 0 when none is. */
export function depositHeldFor(db: ReadDb, jobId: JobId): Minor {
  const row = oneRow<{ heldMinor: Minor | null }>(db, `SELECT ${HELD_FOR_JOB} AS heldMinor`, { jobId });
  return row?.heldMinor ?? (0 as Minor);
}

/** Held as deposits that a customer paid, or that were paid for a customer's jobs. */
export function depositsHeldOf(db: ReadDb, customerId: CustomerId): Minor {
  const sql = `SELECT coalesce(sum(h.heldMinor), 0) AS heldMinor FROM (${DEPOSITS}) h JOIN job j ON j.id = h.jobId
    WHERE h.customerId = :customerId OR j.customer_id = :customerId`;
  return oneRow<{ heldMinor: Minor }>(db, sql, { customerId })?.heldMinor ?? (0 as Minor);
}

const CREDITS = `SELECT c.id AS customerId, c.name AS customer, sum(${LEFT_OF_PAYMENT}) AS heldMinor
  FROM payment p JOIN customer c ON c.id = p.customer_id WHERE p.kind = 'credit'
  GROUP BY c.id HAVING heldMinor > 0 ORDER BY c.name, c.id`;

/** Credits on account, by customer. */
export function creditsHeld(db: ReadDb): Omit<HeldCredit, 'cashMinor'>[] {
  return allRows(db, CREDITS);
}

/** Credit on account of one customer. */
export function creditHeldOf(db: ReadDb, customerId: CustomerId): Minor {
  const sql = `SELECT coalesce(sum(${LEFT_OF_PAYMENT}), 0) AS total FROM payment p
    WHERE p.kind = 'credit' AND p.customer_id = :customerId`;
  return oneRow<{ total: Minor }>(db, sql, { customerId })?.total ?? (0 as Minor);
}

const TIPS = `SELECT p.person_id AS personId, coalesce(w.name, '') AS name, sum(${LEFT_OF_PAYMENT}) AS heldMinor
  FROM payment p LEFT JOIN person w ON w.id = p.person_id WHERE p.kind = 'tip'
  GROUP BY p.person_id HAVING heldMinor > 0 ORDER BY p.person_id IS NULL, w.name, p.person_id`;

/** Tips that were not paid out, by person; those that everybody shares last. */
export function tipsHeld(db: ReadDb): Omit<HeldTip, 'cashMinor'>[] {
  return allRows(db, TIPS);
}
