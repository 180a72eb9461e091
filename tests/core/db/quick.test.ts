import { and, eq, gte, sql } from 'drizzle-orm';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { integer, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openForWriting } from '#core/db/open.ts';
import { quick } from '#core/db/quick.ts';
import type { WriteDb } from '#core/db/types.ts';

const thing = sqliteTable('thing', {
  id: integer('id').primaryKey(),
  name: text('name'),
  size: real('the_size'),
  parts: text('parts', { mode: 'json' }).$type<unknown>(),
  isOpen: integer('is_open', { mode: 'boolean' }),
});
let db: WriteDb;
beforeEach(() => {
  db = openForWriting(':memory:');
  db.raw.exec(
    'CREATE TABLE thing (id INTEGER PRIMARY KEY, name TEXT, the_size REAL, parts TEXT, is_open INTEGER) STRICT',
  );
});
afterEach(() => {
  db.raw.close();
});

const fields = {
  name: sql.placeholder('name'),
  size: sql.placeholder('size'),
  parts: sql.placeholder('parts'),
  isOpen: sql.placeholder('isOpen'),
};
const rows = fc.record({
  name: fc.option(fc.string({ unit: fc.constantFrom('a', 'ø', "'", '?') })),
  size: fc.option(fc.double({ noNaN: true, noDefaultInfinity: true })),
  parts: fc.oneof(fc.constant(null), fc.array(fc.integer()), fc.record({ a: fc.string() })),
  isOpen: fc.boolean(),
});

describe('a quick query', () => {
  it('writes and reads just what drizzle does', () => {
    const plain = drizzle(db.raw);
    const add = quick(db.orm.insert(thing).values(fields).prepare());
    const one = db.orm
      .select()
      .from(thing)
      .where(eq(thing.id, sql.placeholder('id')));
    const some = db.orm
      .select({ id: thing.id, parts: thing.parts, long: sql<number>`length(${thing.name})` })
      .from(thing)
      .where(and(gte(thing.id, sql.placeholder('from')), eq(thing.isOpen, true)));
    fc.assert(
      fc.property(rows, (row) => {
        plain.delete(thing).run();
        plain.insert(thing).values(fields).prepare().run(row);
        add.run(row);
        const [first, second] = db.raw
          .prepare('SELECT name, the_size, parts, is_open FROM thing')
          .raw()
          .all();
        expect(second).toEqual(first);
        for (const id of [1, 2, 3])
          expect(quick(one.prepare()).get({ id })).toEqual(one.prepare().get({ id }));
        expect(quick(some.prepare()).all({ from: 2 })).toEqual(some.prepare().all({ from: 2 }));
      }),
    );
  });

  it('leaves rows of several tables, an object for each, to drizzle', () => {
    db.orm
      .insert(thing)
      .values({ name: 'a', parts: [1] })
      .run();
    const both = db.orm.select({ thing, n: { twice: sql<number>`${thing.id} * 2` } }).from(thing);
    expect(quick(both.prepare()).all()).toEqual([
      { thing: { id: 1, name: 'a', size: null, parts: [1], isOpen: null }, n: { twice: 2 } },
    ]);
  });

  it('refuses a run without one of its values', () => {
    const add = quick(db.orm.insert(thing).values(fields).prepare());
    expect(() => add.run({ name: 'a' })).toThrow('no value for "size"');
    expect(db.raw.prepare('SELECT count(*) FROM thing').pluck().get()).toBe(0);
  });
});
