import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import { type BayShop, openBayShop, USUAL } from './shop.ts';

let shop: BayShop;
beforeEach(() => {
  shop = openBayShop();
});
afterEach(() => shop.close());

async function booked(who: string, stages = USUAL): Promise<JobId> {
  const jobId = shop.job(who, stages);
  shop.write('bays.bookEarliest', { jobId, runs: 20, marginMin: null });
  return jobId;
}

async function promiseOf(jobId: JobId) {
  const { promise } = await shop.read('bookings.job', { jobId });
  const { rows } = await shop.read('bookings.jobs', {
    list: null,
    search: '',
    sort: 'number',
    offset: 0,
    limit: 60,
  });
  const row = rows.find((r) => r.id === jobId);
  const [hand] = await shop.read('bookings.hand', { jobIds: [jobId] });
  const all = [promise, row, hand].map((p) => [p?.pickUpMin ?? null, p?.promisedPpm ?? null, p?.forVisit]);
  expect(all[1]).toEqual(all[0]);
  expect(all[2]).toEqual(all[0]);
  return promise;
}

describe('what is said of a promise', () => {
  it('is the hour and the chance of the day of booking while the job is open, in list, page and strip alike', async () => {
    const promise = await promiseOf(await booked('Marit Vane'));
    expect(promise.pickUpMin).toBeGreaterThan(0);
    expect(promise.promisedPpm).toBeGreaterThanOrEqual(800_000);
    expect(promise.forVisit).toBe(false);
  });

  it('is nothing once the job was cancelled, missed or stopped half way', async () => {
    const [cancelled, missed] = [await booked('Marit Vane'), await booked('Dev Ostler')];
    shop.write('bookings.cancelJob', { jobId: cancelled, reason: 'sold the car' });
    shop.at(((await promiseOf(missed)).dropOffMin ?? 0) * 60_000);
    shop.write('bookings.noShow', { jobId: missed, reason: 'no word' });
    for (const jobId of [cancelled, missed])
      expect(await promiseOf(jobId)).toMatchObject({ dropOffMin: null, pickUpMin: null, promisedPpm: null });
    const stopped = await booked('Ana Brisk');
    shop.db.raw.prepare(`UPDATE job SET state = 'ready', stopped_ms = 1 WHERE id = ?`).run(stopped);
    expect(await promiseOf(stopped)).toMatchObject({ pickUpMin: null, promisedPpm: null });
  });

  it('keeps the hour of a car that is ready or was fetched, without a chance', async () => {
    const jobId = await booked('Marit Vane');
    shop.db.raw.prepare(`UPDATE job SET state = 'collected' WHERE id = ?`).run(jobId);
    const promise = await promiseOf(jobId);
    expect([promise.pickUpMin !== null, promise.promisedPpm, promise.bold]).toEqual([true, null, false]);
  });

  it('is the visit’s while only a look at the paint has its place', async () => {
    const look = [{ kind: 'inspection', min: 30, bay: 'wash', skill: 'inspection' }] as const;
    expect((await promiseOf(await booked('Marit Vane', look))).forVisit).toBe(true);
  });
});
