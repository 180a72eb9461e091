import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { openForWriting } from '#core/db/open.ts';
import { plannedOnce } from '#core/db/planOnce.ts';

const TABLE = `CREATE TABLE t (id INTEGER PRIMARY KEY, job TEXT, n INTEGER) STRICT;
  CREATE INDEX t_job ON t (job);
  INSERT INTO t (job, n) VALUES ('a', 2), ('a', 1), ('b', 7);`;
const ORDERED = 'SELECT n FROM t WHERE job = :job ORDER BY n';

let open: Database.Database[] = [];
beforeEach(() => {
  open = [];
});
afterEach(() => {
  vi.restoreAllMocks();
  for (const db of open) db.close();
});

function plain(): Database.Database {
  const db = new Database(':memory:');
  open.push(db);
  db.exec(TABLE);
  return db;
}
function ours(): Database.Database {
  const db = openForWriting(':memory:').raw;
  open.push(db);
  db.exec(TABLE);
  return db;
}

/** The driver makes a function for the rows of a statement each time it was planned. */
function timesPlanned(db: Database.Database, sql: string, runs: readonly Record<string, unknown>[]): number {
  const statement = db.prepare(sql);
  const made = vi.spyOn(globalThis, 'Function');
  for (const run of runs) statement.all(run);
  const times = made.mock.calls.length;
  made.mockRestore();
  return times;
}

describe('statements of a connection', () => {
  const runs = ['a', 'b', 'a', 'b', 'c', 'a'].map((job) => ({ job }));

  it('are planned once, where the driver alone plans an ordered one for each run', () => {
    expect(timesPlanned(plain(), ORDERED, runs)).toBeGreaterThan(3);
    expect(timesPlanned(ours(), ORDERED, runs)).toBe(1);
  });

  it('are planned once with a limit, too', () => {
    const sql = 'SELECT n FROM t WHERE job = :job ORDER BY n LIMIT :most OFFSET :skip';
    const limited = runs.map((run) => ({ ...run, most: 1, skip: 0 }));
    expect(timesPlanned(plain(), sql, limited)).toBeGreaterThan(3);
    expect(timesPlanned(ours(), sql, limited)).toBe(1);
  });

  it('read the same rows by the same index', () => {
    const how = (db: Database.Database): unknown =>
      db.prepare(`EXPLAIN QUERY PLAN ${ORDERED}`).all({ job: 'a' });
    expect(how(ours())).toEqual(how(plain()));
    expect(JSON.stringify(how(ours()))).toContain('USING INDEX t_job (job=?)');
    for (const run of runs)
      expect(ours().prepare(ORDERED).all(run)).toEqual(plain().prepare(ORDERED).all(run));
  });

  it('keep the kind of each value that is written', () => {
    const db = ours();
    db.prepare('UPDATE t SET job = ?, n = ? WHERE id = ?').run('007', null, 1);
    expect(db.prepare('SELECT job, typeof(job) AS kind, n FROM t WHERE id IS :id').get({ id: 1 })).toEqual({
      job: '007',
      kind: 'text',
      n: null,
    });
  });
});

describe('a plus sign before a parameter', () => {
  it('stands after an equals sign, IS, LIMIT and OFFSET', () => {
    expect(plannedOnce('a = :a AND b=? AND c <= :c AND d IS :d LIMIT :n OFFSET ?')).toBe(
      'a = +:a AND b=+? AND c <= +:c AND d IS +:d LIMIT +:n OFFSET +?',
    );
  });

  it('stands nowhere else', () => {
    const sql = `SELECT 'x = :y', "z = ?", :whole AS w FROM t -- a = :a
      WHERE d IS NOT :d AND e > :e AND f IN (?, ?) AND this :g`;
    expect(plannedOnce(sql)).toBe(sql);
  });
});
