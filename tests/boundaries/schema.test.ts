import { readdirSync } from 'node:fs';
import path from 'node:path';
import { getTableColumns, getTableName, is } from 'drizzle-orm';
import { SQLiteTable } from 'drizzle-orm/sqlite-core';
import { afterAll, describe, expect, it } from 'vitest';
import { openTestShop } from '../helpers/shop.ts';

const schemaDir = path.resolve(import.meta.dirname, '../../core/db/schema');
const shop = openTestShop();
afterAll(() => shop.close());

async function tables(): Promise<SQLiteTable[]> {
  const modules = await Promise.all(
    readdirSync(schemaDir).map((f) => import(path.join(schemaDir, f)) as Promise<Record<string, unknown>>),
  );
  return modules.flatMap((m) => Object.values(m).filter((v): v is SQLiteTable => is(v, SQLiteTable)));
}

/** Columns as drizzle says: name, type, not null. */
function drawn(table: SQLiteTable): string[] {
  return Object.values(getTableColumns(table))
    .map((c) => `${c.name} ${c.getSQLType().toUpperCase()} ${c.notNull || c.primary ? 'not null' : 'null'}`)
    .sort();
}

/** The same as the file says. */
function real(name: string): string[] {
  const columns = shop.db.raw.pragma(`table_info("${name}")`) as {
    name: string;
    type: string;
    notnull: number;
    pk: number;
  }[];
  return columns.map((c) => `${c.name} ${c.type} ${c.notnull || c.pk ? 'not null' : 'null'}`).sort();
}

describe('the drizzle tables', () => {
  it('draw each table as the migrations made it', async () => {
    const all = await tables();
    expect(all.length).toBeGreaterThan(3);
    for (const table of all)
      expect({ [getTableName(table)]: drawn(table) }).toEqual({
        [getTableName(table)]: real(getTableName(table)),
      });
  });

  it('would show a column that the file lacks', async () => {
    const [first] = await tables();
    if (!first) throw new Error('no table');
    expect([...drawn(first), 'planted TEXT null']).not.toEqual(real(getTableName(first)));
  });

  it('are all strict in the file, and no business table deletes its children', () => {
    const list = shop.db.raw.pragma('table_list') as { name: string; type: string; strict: number }[];
    const own = list.filter((t) => t.type === 'table' && !t.name.startsWith('sqlite_'));
    expect(own.filter((t) => !t.strict).map((t) => t.name)).toEqual([]);
    const cascades = shop.db.raw
      .prepare("SELECT name FROM sqlite_master WHERE sql LIKE '%ON DELETE CASCADE%'")
      .pluck()
      .all();
    expect(cascades).toEqual([]);
  });
});
