import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { LocalDay, Minor } from '../shared/units.ts';
import type { CashCountRow } from '../shared/views/till.ts';

const SHOWN = 30;

/** What should lie in the till: what the last count left there, and every note and coin since. */
export function expectedInTill(db: ReadDb): Minor {
  const row = oneRow<{ expectedMinor: Minor }>(
    db,
    `SELECT coalesce((SELECT counted_minor - banked_minor FROM cash_count ORDER BY seq DESC LIMIT 1), 0)
      + coalesce((SELECT sum(amount_minor) FROM payment WHERE way = 'cash'
        AND receipt > coalesce((SELECT last_receipt FROM cash_count ORDER BY seq DESC LIMIT 1), 0)), 0) AS expectedMinor`,
  );
  return row?.expectedMinor ?? (0 as Minor);
}

/** The number of the last receipt, 0 before the first. */
export function lastReceipt(db: ReadDb): number {
  const sql = 'SELECT coalesce(max(receipt), 0) AS receipt FROM payment';
  return oneRow<{ receipt: number }>(db, sql)?.receipt ?? 0;
}

/** What the first count expected above all cash taken until then is the float it began with. */
const COUNTS = `SELECT c.seq, c.local_day AS day, c.at_ms AS atMs, c.expected_minor AS expectedMinor,
    c.counted_minor AS countedMinor, c.banked_minor AS bankedMinor, c.reason, coalesce(p.name, '') AS by,
    CASE WHEN c.seq = (SELECT min(seq) FROM cash_count) THEN c.expected_minor - coalesce(
      (SELECT sum(amount_minor) FROM payment WHERE way = 'cash' AND receipt <= c.last_receipt), 0)
      ELSE 0 END AS floatMinor
  FROM cash_count c LEFT JOIN person p ON p.id = c.counted_by`;

/** The last counts of the till, newest first. */
export function cashCounts(db: ReadDb): CashCountRow[] {
  return allRows<CashCountRow>(db, `${COUNTS} ORDER BY c.seq DESC LIMIT ${SHOWN}`);
}

/** Counts of a period in their order. */
export function cashCountsIn(db: ReadDb, fromDay: LocalDay, toDay: LocalDay): CashCountRow[] {
  return allRows<CashCountRow>(db, `${COUNTS} WHERE c.local_day BETWEEN :fromDay AND :toDay ORDER BY c.seq`, {
    fromDay,
    toDay,
  });
}
