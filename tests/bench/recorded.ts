import type Database from 'better-sqlite3';

type Asked = { readonly sql: string; readonly method: 'all' | 'get'; readonly values: readonly unknown[] };

/**
 * Records the statements that some work asks of a database, and gives back a function that asks them again, prepared
 * once. The work must run fresh: statements that were prepared before are asked through a copy that records.
 */
export async function recordedReads(
  raw: Database.Database,
  work: () => Promise<unknown>,
): Promise<{ readonly again: () => unknown; readonly statements: number }> {
  const asked: Asked[] = [];
  const Statement = Object.getPrototypeOf(raw.prepare('SELECT 1')) as Record<
    'all' | 'get',
    (this: Database.Statement, ...values: unknown[]) => unknown
  >;
  const kept = { all: Statement.all, get: Statement.get };
  for (const method of ['all', 'get'] as const)
    Statement[method] = function recorded(...values) {
      asked.push({ sql: this.source, method, values });
      return kept[method].apply(this, values);
    };
  try {
    await work();
  } finally {
    Object.assign(Statement, kept);
  }
  const ready = asked.map(({ sql, method, values }) => {
    const statement = raw.prepare(sql);
    return () => statement[method](...values);
  });
  return { again: () => ready.map((ask) => ask()), statements: ready.length };
}
