import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';

/** Numbers of issued documents that do not follow the one before, and that nothing read from paper accounts for. */
export function documentGaps(db: ReadDb): number[] {
  return allRows<{ readonly number: number }>(
    db,
    `SELECT number FROM (SELECT number, lag(number) OVER (ORDER BY number) AS before FROM invoice WHERE number IS NOT NULL)
     WHERE before IS NOT NULL AND number <> before + 1
       AND number - 1 NOT IN (SELECT value FROM issue_check, json_each(issue_check.read_nos))`,
  ).map((row) => row.number);
}
