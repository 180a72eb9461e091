import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';

/** Numbers of a series, both ends in it. */
export type NumberRange = { readonly first: number; readonly last: number };

const GAPS = `SELECT before + 1 AS first, number - 1 AS last
  FROM (SELECT number, lag(number) OVER (ORDER BY number) AS before FROM invoice WHERE number IS NOT NULL)
  WHERE before IS NOT NULL AND number <> before + 1 AND number BETWEEN :first AND :last
    AND number - 1 NOT IN (SELECT value FROM issue_check, json_each(issue_check.read_nos))`;

/**
 * Numbers that no document was issued under and that nothing read from paper accounts for: those before each issued
 * number of `within`, so that a gap where one period ends is told in the next. Of the whole series where not said.
 */
export function documentGaps(
  db: ReadDb,
  within: NumberRange = { first: 0, last: Number.MAX_SAFE_INTEGER },
): NumberRange[] {
  return allRows<NumberRange>(db, GAPS, { ...within });
}
