import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { CustomerId } from '../shared/ids.ts';
import type { LocalDay, Minor } from '../shared/units.ts';
import type { StatementEntry, TipRow } from '../shared/views/statement.ts';

/**
 * All that changes the account of a customer: documents to them; money by receipt, where what only changed its name
 * comes to nothing and is left out; and money held for one customer on a document of another, seen from both. A voucher
 * is nobody's account: it counts where it pays a document.
 */
const ENTRIES = `SELECT issued_day AS day, kind AS what, number, to_pay_minor AS amountMinor, issued_ms AS atMs
    FROM invoice WHERE customer_id = :customerId AND number IS NOT NULL
  UNION ALL
  SELECT local_day, 'receipt', receipt, -sum(amount_minor), min(at_ms)
    FROM payment p WHERE customer_id = :customerId AND kind NOT IN ('tip', 'voucher')
      AND NOT EXISTS (SELECT 1 FROM payment o WHERE o.id = p.of_payment_id AND o.kind IN ('tip', 'voucher')) GROUP BY receipt HAVING sum(amount_minor) <> 0
  UNION ALL
  SELECT a.local_day, 'use', i.number, CASE WHEN p.customer_id = :customerId AND p.kind <> 'voucher' THEN a.amount_minor ELSE -a.amount_minor END,
      a.at_ms
    FROM allocation a JOIN payment p ON p.id = a.payment_id JOIN invoice i ON i.id = a.invoice_id
    WHERE (p.customer_id <> i.customer_id AND p.kind <> 'voucher' AND :customerId IN (p.customer_id, i.customer_id))
      OR (p.kind = 'voucher' AND i.customer_id = :customerId)`;

/** Where a customer's account stood before a day. */
export function balanceBefore(db: ReadDb, customerId: CustomerId, day: LocalDay): Minor {
  const sql = `SELECT coalesce(sum(amountMinor), 0) AS balanceMinor FROM (${ENTRIES}) WHERE day < :day`;
  return oneRow<{ balanceMinor: Minor }>(db, sql, { customerId, day })?.balanceMinor ?? (0 as Minor);
}

/** What changed a customer's account in a period, in its order. */
export function entriesIn(
  db: ReadDb,
  customerId: CustomerId,
  fromDay: LocalDay,
  toDay: LocalDay,
): Omit<StatementEntry, 'balanceMinor'>[] {
  return allRows<Omit<StatementEntry, 'balanceMinor'>>(
    db,
    `SELECT day, what, number, amountMinor FROM (${ENTRIES}) WHERE day BETWEEN :fromDay AND :toDay
    ORDER BY day, atMs, what, number`,
    { customerId, fromDay, toDay },
  );
}

/** Tips of a period by person, those that everybody shares last. */
export function tipsIn(db: ReadDb, fromDay: LocalDay, toDay: LocalDay): TipRow[] {
  return allRows<TipRow>(
    db,
    `SELECT p.person_id AS personId, coalesce(w.name, '') AS name, count(*) AS tips,
      sum(p.amount_minor) AS amountMinor
    FROM payment p LEFT JOIN person w ON w.id = p.person_id
    WHERE p.kind = 'tip' AND p.local_day BETWEEN :fromDay AND :toDay
    GROUP BY p.person_id ORDER BY p.person_id IS NULL, w.name, p.person_id`,
    { fromDay, toDay },
  );
}
