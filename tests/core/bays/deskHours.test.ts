import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type BayShop, openBayShop } from './shop.ts';

let shop: BayShop;
/** Tuesday 24 November 2026, 14:00 in Vienna. */
beforeEach(() => {
  shop = openBayShop({ nowMs: Date.parse('2026-11-24T13:00:00Z') });
});
afterEach(() => shop.close());

const LONG = [{ kind: 'refine', min: 420, bay: 'correction', skill: 'correction' }] as const;
const hours = async () => (await shop.read('bookings.desk', {})).hours;

describe('the technicians’ hours of a day', () => {
  it('count of a stage planned over night only what lies in the shift of the day', async () => {
    const jobId = shop.job('Marit Vane', LONG);
    shop.write('bays.bookEarliest', { jobId, runs: 20, marginMin: 0 });
    const { shiftMin, plannedMin } = await hours();
    const piece = shop.db.raw
      .prepare('SELECT start_min AS a, end_min AS b FROM placement WHERE job_id = ?')
      .get(jobId) as { a: number; b: number };
    const closes = Date.parse('2026-11-24T16:00:00Z') / 60_000;
    expect(piece.b).toBeGreaterThan(closes);
    expect(plannedMin).toBe(closes - piece.a);
    // Two people, 8:00 to 12:00 and 12:30 to 17:00.
    expect(shiftMin).toBe(2 * 510);
  });

  it('leave out what was planned for a car that did not come', async () => {
    const jobId = shop.job('Marit Vane', LONG);
    shop.write('bays.bookEarliest', { jobId, runs: 20, marginMin: 0 });
    expect((await hours()).plannedMin).toBeGreaterThan(0);
    shop.at(((await shop.read('bookings.job', { jobId })).promise.dropOffMin ?? 0) * 60_000);
    shop.write('bookings.noShow', { jobId, reason: 'no word' });
    expect((await hours()).plannedMin).toBe(0);
  });

  it('are none on a day on which the shop is shut', async () => {
    shop.write('bays.addClosure', { fromDay: '2026-11-24', toDay: '2026-11-24', reason: 'stocktaking' });
    expect(await hours()).toMatchObject({ shiftMin: 0, plannedMin: 0 });
  });
});
