import type Database from 'better-sqlite3';

/** Quoted words and remarks, which stay as they are, or what stands before a parameter. */
const BEFORE_PARAMETER = /'[^']*'|"[^"]*"|--[^\n]*|((?:=|\b(?:IS|LIMIT|OFFSET)\b)\s*)(?=[:?])/gi;

/**
 * The same statement with a plus sign before each parameter after `=`, `IS`, `LIMIT` or `OFFSET`. It changes no value and
 * no use of an index, but SQLite then does not look at the value when it plans. Where it does look (any statement with
 * an order or a join), it parses and plans anew once the value was forgotten, and the driver forgets all values after
 * each run: that took longer than reading.
 * Source: SQLite's `sqlite3ExprIsInteger` and `sqlite3_clear_bindings`; https://www.sqlite.org/c3ref/prepare.html.
 */
export function plannedOnce(sql: string): string {
  return sql.replace(BEFORE_PARAMETER, (all, before?: string) => (before === undefined ? all : `${before}+`));
}

/** Has every statement of a connection planned once, however often it runs. */
export function planOnce(raw: Database.Database): void {
  const prepare = raw.prepare;
  raw.prepare = ((sql: string) => prepare.call(raw, plannedOnce(sql))) as typeof raw.prepare;
}
