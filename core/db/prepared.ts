import { quick } from './quick.ts';
import type { ReadDb } from './types.ts';

const cache = new WeakMap<object, Map<string, unknown>>();

/** Builds a drizzle query once per connection: building costs ten times running it. */
export function prepared<Q>(build: (db: ReadDb) => Q): (db: ReadDb) => Q {
  const key = `q${Math.random()}`;
  return (db) => memo(db.raw, key, () => quick(build(db)));
}

/** Makes something once per connection and key. */
export function memo<T>(owner: object, key: string, make: () => T): T {
  let known = cache.get(owner);
  if (!known) {
    known = new Map();
    cache.set(owner, known);
  }
  const before = known.get(key);
  if (before !== undefined) return before as T;
  const made = make();
  known.set(key, made);
  return made;
}

/** Rows of a read-only SQL text with named parameters (`:name`). Prepared once per connection and text. */
export function allRows<Row>(db: ReadDb, sql: string, params: Readonly<Record<string, unknown>> = {}): Row[] {
  return memo(db.raw, sql, () => db.raw.prepare(sql)).all(params) as Row[];
}

/** The same rows as lists of values in the order of the columns, for many rows at once. */
export function tuples<Row extends readonly unknown[]>(
  db: ReadDb,
  sql: string,
  params: Readonly<Record<string, unknown>> = {},
): Row[] {
  return memo(db.raw, `tuples: ${sql}`, () => db.raw.prepare(sql).raw(true)).all(params) as Row[];
}

/** The first row or undefined. */
export function oneRow<Row>(
  db: ReadDb,
  sql: string,
  params: Readonly<Record<string, unknown>> = {},
): Row | undefined {
  return memo(db.raw, sql, () => db.raw.prepare(sql)).get(params) as Row | undefined;
}
