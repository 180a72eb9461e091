import { eq, getTableName, sql } from 'drizzle-orm';
import type { SQLiteColumn, SQLiteTable } from 'drizzle-orm/sqlite-core';
import { memo } from './prepared.ts';
import { quick } from './quick.ts';
import type { WriteDb } from './types.ts';

type Counted = SQLiteTable & { readonly id: SQLiteColumn; readonly revision: SQLiteColumn };
type Statement = { run(params: Record<string, unknown>): unknown };

/** Adds a row. The statement is built once per connection, table and set of fields: building costs ten times running. */
export function addRow<T extends SQLiteTable>(db: WriteDb, table: T, row: T['$inferInsert']): void {
  const { key, fields } = shapeOf(row);
  const statement = memo(
    db.raw,
    `add ${getTableName(table)} ${key}`,
    (): Statement =>
      quick(
        db.orm
          .insert(table)
          .values(fields as T['$inferInsert'])
          .prepare(),
      ),
  );
  statement.run(row);
}

/** Changes the named fields of one row and counts its revision up; fields that are undefined stay. */
export function patchRow<T extends Counted>(
  db: WriteDb,
  table: T,
  id: string,
  patch: Partial<T['$inferInsert']>,
): void {
  const { key, fields } = shapeOf(patch);
  const statement = memo(db.raw, `patch ${getTableName(table)} ${key}`, (): Statement => {
    const set = { ...fields, revision: sql`${table.revision} + 1` } as never;
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
  const shape = shapeOf(row);
  const statement = memo(
    db.raw,
    `put ${getTableName(table)} ${shape.key} ${changed.join(' ')}`,
    (): Statement => {
      const set = Object.fromEntries(changed.map((name) => [name, shape.fields[String(name)]])) as never;
      const add = db.orm.insert(table).values(shape.fields as T['$inferInsert']);
      return quick(add.onConflictDoUpdate({ target: key, set }).prepare());
    },
  );
  statement.run(row);
}

type Shape = { readonly key: string; readonly fields: Readonly<Record<string, unknown>> };

/** Nulls are written into the statement: a placeholder would hand them to the column's encoder (null as JSON is 'null'). */
function shapeOf(row: Readonly<Record<string, unknown>>): Shape {
  const names = Object.keys(row).filter((name) => row[name] !== undefined);
  return {
    key: names.map((name) => (row[name] === null ? `${name}=null` : name)).join(' '),
    fields: Object.fromEntries(
      names.map((name) => [name, row[name] === null ? null : sql.placeholder(name)]),
    ),
  };
}
