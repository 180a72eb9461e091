import { memo } from '../../db/prepared.ts';
import type { WriteDb } from '../../db/types.ts';
import type { LocalDay } from '../../shared/units.ts';

type Row = Readonly<Record<string, string | number>>;
/** A day that is kept, as the shop's zone has it. */
export type KeptDay = { readonly day: LocalDay; readonly startMin: number; readonly endMin: number };

/** The kept tables, and what their columns are called outside, in order. */
const COLUMNS = {
  kept_day: ['day', 'startMin', 'endMin'],
  kept_hours: [
    ...['day', 'place', 'attendedMin', 'cureMin', 'waitingMin', 'blockedMin', 'idleMin', 'workedMs'],
  ],
  kept_honesty: [
    ...['day', 'sortedBy', 'key', 'finished', 'stages', 'estimatedMin', 'actualMs', 'within', 'overMs'],
    'underMs',
  ],
  kept_furthest: ['day', 'stageId', 'doneMs', 'far'],
} as const;
type Table = keyof typeof COLUMNS;

function run(db: WriteDb, sql: string, ...values: readonly (string | number)[]): void {
  memo(db.raw, sql, () => db.raw.prepare(sql)).run(...values);
}

/** Writes days in anew with all that they came to. */
export function saveDays(
  db: WriteDb,
  days: readonly KeptDay[],
  sums: {
    readonly hours: readonly Row[];
    readonly honesty: readonly Row[];
    readonly furthest: readonly Row[];
  },
): void {
  const [first, last] = [days[0]?.day ?? '', days.at(-1)?.day ?? ''];
  const tables = {
    kept_day: days,
    kept_hours: sums.hours,
    kept_honesty: sums.honesty,
    kept_furthest: sums.furthest,
  };
  for (const [table, rows] of Object.entries(tables) as [Table, readonly Row[]][]) {
    const columns = COLUMNS[table];
    run(db, `DELETE FROM ${table} WHERE day BETWEEN ? AND ?`, first, last);
    // Each value as it is: through JSON SQLite would read a fraction back a little off.
    const insert = `INSERT INTO ${table} VALUES (${columns.map(() => '?').join(', ')})`;
    for (const row of rows) run(db, insert, ...columns.map((name) => row[name] ?? 0));
  }
}

/** Takes out the days of some stretches of time; what they came to is written over when they are kept again. */
export function takeOut(
  db: WriteDb,
  spans: readonly { readonly startMin: number; readonly endMin: number }[],
): void {
  for (const { startMin, endMin } of spans)
    run(db, 'DELETE FROM kept_day WHERE end_min > ? AND start_min < ?', startMin, endMin);
  run(db, 'DELETE FROM kept_stale');
}
