import { allRows } from '../db/prepared.ts';
import type { Check } from './check.ts';

/** Whether the file itself is whole: SQLite's own checks, and the pragmas that keep it so. */
export const fileChecks: readonly Check[] = [
  {
    name: 'file.whole',
    about: 'every page of the file can be read and every index matches its table',
    run: (db) =>
      (db.raw.pragma('integrity_check') as { integrity_check: string }[])
        .filter((row) => row.integrity_check !== 'ok')
        .map((row) => ({ subject: 'file', problem: row.integrity_check })),
  },
  {
    name: 'file.references',
    about: 'every record that another one names is there',
    run: (db) =>
      (db.raw.pragma('foreign_key_check') as { table: string; rowid: number; parent: string }[]).map(
        (row) => ({
          subject: `${row.table} row ${row.rowid}`,
          problem: `names a ${row.parent} that is not there`,
        }),
      ),
  },
  {
    name: 'journal.order',
    about: 'the journal runs forward in time',
    run: (db) =>
      allRows<{ id: number }>(
        db,
        `SELECT id FROM (SELECT id, at_ms, max(at_ms) OVER (ORDER BY id ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING) AS before FROM journal)
         WHERE before > at_ms`,
      ).map((row) => ({
        subject: `journal line ${row.id}`,
        problem: 'is older than the line before it (the clock went back)',
      })),
  },
];
