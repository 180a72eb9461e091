import { allRows } from '../db/prepared.ts';
import type { Check } from './check.ts';

/** Whether the file itself is whole: SQLite's own checks, and the pragmas that keep it so. */
export const fileChecks: readonly Check[] = [
  {
    name: 'file.whole',
    run: (db) =>
      (db.raw.pragma('integrity_check') as { integrity_check: string }[])
        .filter((row) => row.integrity_check !== 'ok')
        .map((row) => ({ detail: row.integrity_check })),
  },
  {
    name: 'file.references',
    run: (db) =>
      (db.raw.pragma('foreign_key_check') as { table: string; rowid: number; parent: string }[]).map(
        (row) => ({ table: row.table, row: String(row.rowid), parent: row.parent }),
      ),
  },
  {
    name: 'journal.order',
    run: (db) =>
      allRows<{ id: number }>(
        db,
        `SELECT id FROM (SELECT id, at_ms, max(at_ms) OVER (ORDER BY id ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING) AS before FROM journal)
         WHERE before > at_ms`,
      ).map((row) => ({ line: String(row.id) })),
  },
];
