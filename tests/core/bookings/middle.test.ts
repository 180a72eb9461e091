import { afterEach, beforeEach, expect, it } from 'vitest';
import type { ReadDb } from '#core/db/types.ts';
import type { JobId } from '#core/shared/ids.ts';
import { hoursOf, middleOf } from '#core/views/jobHours.ts';
import { agreedJob } from '../../helpers/billing.ts';
import { type BayShop, openBayShop } from '../bays/shop.ts';

let shop: BayShop;
beforeEach(() => {
  shop = openBayShop();
});
afterEach(() => shop.close());

/** A connection that counts what is read through it. */
function counting(db: ReadDb): { readonly db: ReadDb; readonly reads: () => number } {
  let reads = 0;
  const raw = {
    prepare: (sql: string) => {
      const statement = db.raw.prepare(sql);
      const counted = (read: 'all' | 'get') => (params: object) => {
        reads += 1;
        return statement[read](params);
      };
      return { all: counted('all'), get: counted('get') };
    },
  };
  return { db: { ...db, raw: raw as unknown as ReadDb['raw'] }, reads: () => reads };
}

function mixedJobs(): JobId[] {
  const agreed = [agreedJob(shop).jobId, agreedJob(shop).jobId];
  const plain = ['Noor Farrow', 'Ida Brisk'].map((who) =>
    shop.job(who, [
      { kind: 'wash', min: 60, bay: 'wash', skill: 'wash' },
      { kind: 'cut', min: 240, bay: 'correction', skill: 'correction' },
    ]),
  );
  return [...agreed, ...plain];
}

it('the middle of many jobs is read as each alone, in as many reads as that of one', () => {
  const jobs = mixedJobs();
  const many = counting(shop.db);
  const found = middleOf(many.db, jobs);
  expect([...found.values()]).toEqual(jobs.map((id) => hoursOf(shop.db, id, []).p50Min));
  expect(new Set(found.values()).size).toBe(2);
  const one = counting(shop.db);
  middleOf(one.db, jobs.slice(0, 1));
  expect(many.reads()).toBe(one.reads());
});
