import path from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import type { ReadCtx } from '#core/context.ts';
import { openForReading } from '#core/db/open.ts';
import type { ReadDb } from '#core/db/types.ts';
import type { EpochMs } from '#core/shared/units.ts';
import { remembered } from '#core/views/remembered.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
let reader: ReadDb;
beforeEach(() => {
  shop = openTestShop();
  reader = openForReading(path.join(shop.dir, 'rakelight.sqlite'));
});
afterEach(() => {
  reader.raw.close();
  shop.close();
});

const NAMES = 'SELECT count(*) FROM customer';
/** Counts the customers, and how often it was asked to. */
function counter(): { readonly ask: (ctx: ReadCtx, asked: object) => number; times: number } {
  const made = { ask: (_: ReadCtx, __: object): number => 0, times: 0 };
  made.ask = remembered('names', (ctx: ReadCtx) => {
    made.times += 1;
    return ctx.db.raw.prepare(NAMES).pluck().get() as number;
  });
  return made;
}
const at = (db: ReadDb, minutes = 0): ReadCtx => ({
  db,
  now: (shop.now() + minutes * 60_000) as EpochMs,
  actor: null,
});
const add = (): unknown => shop.write('people.addCustomer', { name: 'Ana Brisk', phone: '0555 018 100' });

it('the same question is answered from memory until anybody writes, or a minute is over', () => {
  const count = counter();
  const ask = (ctx: ReadCtx, of = 1): number => count.ask(ctx, { of });
  expect([ask(at(reader)), ask(at(reader)), count.times]).toEqual([0, 0, 1]);
  ask(at(reader), 2);
  expect(count.times).toBe(2);
  add();
  expect([ask(at(reader)), count.times]).toEqual([1, 3]);
  expect([ask(at(reader, 1)), count.times]).toEqual([1, 4]);
});

it('a snapshot that began before a write is answered as it was, and the next one as it is', () => {
  const count = counter();
  const inSnapshot = reader.raw.transaction(() => {
    const before = count.ask(at(reader), {});
    add();
    return [before, count.ask(at(reader), {})];
  });
  expect(inSnapshot()).toEqual([0, 0]);
  expect(count.ask(at(reader), {})).toBe(1);
});

it('a connection that may write never answers from memory', () => {
  const count = counter();
  for (let i = 0; i < 3; i += 1) count.ask(at(shop.db), {});
  expect(count.times).toBe(3);
});
