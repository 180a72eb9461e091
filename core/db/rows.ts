import { eq, getTableName, sql } from 'drizzle-orm';
import type { SQLiteColumn, SQLiteTable } from 'drizzle-orm/sqlite-core';
import { memo } from './prepared.ts';
import { quick } from './quick.ts';
import type { WriteDb } from './types.ts';

type Counted = SQLiteTable & { readonly id: SQLiteColumn; readonly revision: SQLiteColumn };
type Statement = { run(params: Record<string, unknown>): unknown };

/** Adds a row. The statement is built once per connection, table and set of fields: building costs ten times running. */
export function addRow<T extends SQLiteTable>(db: WriteDb, table: T, row: T['$inferInsert']): void {
  const statement = memo(db.raw, `add ${getTableName(table)} ${shapeOf(row)}`, (): Statement => {
    const values = fieldsOf(row) as T['$inferInsert'];
    return quick(db.orm.insert(table).values(values).prepare());
  });
  statement.run(row);
}

/** Changes the named fields of one row and counts its revision up; fields that are undefined stay. */
export function patchRow<T extends Counted>(
  db: WriteDb,
  table: T,
  id: string,
  patch: Partial<T['$inferInsert']>,
): void {
  const statement = memo(db.raw, `patch ${getTableName(table)} ${shapeOf(patch)}`, (): Statement => {
    const set = { ...fieldsOf(patch), revision: sql`${table.revision} + 1` } as never;
    return quick(
      db.orm
        .update(table)
        .set(set)
        .where(eq(table.id, sql.placeholder('idOfRow')))
        .prepare(),
    );
  });
  statement.run({ ...patch, idOfRow: id });
}

/** Adds a row, or changes the named fields of the one that stands under the same key. */
export function putRow<T extends SQLiteTable>(
  db: WriteDb,
  table: T,
  key: SQLiteColumn[],
  row: T['$inferInsert'],
  changed: readonly (keyof T['$inferInsert'])[],
): void {
  const statement = memo(
    db.raw,
    `put ${getTableName(table)} ${shapeOf(row)} ${changed.join(' ')}`,
    (): Statement => {
      const fields = fieldsOf(row);
      const set = Object.fromEntries(changed.map((name) => [name, fields[String(name)]])) as never;
      const add = db.orm.insert(table).values(fields as T['$inferInsert']);
      return quick(add.onConflictDoUpdate({ target: key, set }).prepare());
    },
  );
  statement.run(row);
}

type Row = Readonly<Record<string, unknown>>;

/** Which fields a row names, and which of them are null: rows of one shape share a statement. */
function shapeOf(row: Row): string {
  let shape = '';
  for (const name in row) {
    const value = row[name];
    if (value === undefined) continue;
    shape += value === null ? ` ${name}=null` : ` ${name}`;
  }
  return shape;
}

/** Nulls are written into the statement: a placeholder would hand them to the column's encoder (null as JSON is 'null'). */
function fieldsOf(row: Row): Row {
  const named = Object.entries(row).filter(([, value]) => value !== undefined);
  return Object.fromEntries(
    named.map(([name, value]) => [name, value === null ? null : sql.placeholder(name)]),
  );
}
