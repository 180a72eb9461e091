import { afterEach, beforeEach, expect, it } from 'vitest';
import { bookingLeads } from '#core/views/stockFlows.ts';
import { TEST_NOW } from '../../helpers/shop.ts';
import { type BayShop, openBayShop } from './shop.ts';

let shop: BayShop;
beforeEach(() => {
  shop = openBayShop();
});
afterEach(() => shop.close());

const DAY = 86_400_000;
const PROTECT = [{ kind: 'protect', min: 60, bay: 'protection', skill: 'protection' }] as const;

it('learns how long ahead work is booked from when its day was agreed, not from the first call', async () => {
  const jobId = shop.job('Marit Vane', PROTECT);
  shop.at(TEST_NOW + 5 * DAY);
  const book = (day: string) =>
    shop.write('bays.bookEarliest', {
      jobId,
      notBeforeMin: (Date.parse(`${day}T07:00:00Z`) / 60_000) as never,
    });
  book('2026-12-02');
  const leads = () => bookingLeads(shop.db, TEST_NOW + 30 * DAY, 60).map(Math.round);
  // the call came on 25 November, the day was agreed on Monday 30 for Wednesday 2 December
  expect(leads()).toEqual([2]);
  const agreed = () => shop.db.raw.prepare('SELECT booked_ms FROM job WHERE id = ?').pluck().get(jobId);
  expect(agreed()).toBe(TEST_NOW + 5 * DAY);
  // an hour's change on that day is no other booking; another day is one, made when it was agreed
  shop.at(TEST_NOW + 6 * DAY);
  book('2026-12-02');
  expect(agreed()).toBe(TEST_NOW + 5 * DAY);
  book('2026-12-09');
  expect(agreed()).toBe(TEST_NOW + 6 * DAY);
  expect(leads()).toEqual([8]);
});
