import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ranBack } from '#core/bookings/rules/mileage.ts';
import type { JobId } from '#core/shared/ids.ts';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { sayError } from '#core/shared/text/sayError.ts';
import { CAR_RECORD, jobWith } from '#tests/helpers/bookedJob.ts';
import { openTestShop, TEST_NOW, type TestShop } from '#tests/helpers/shop.ts';

const DAY = 86_400_000;
let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

async function said(name: 'bookings.arrive' | 'bookings.handOver', input: object): Promise<string> {
  const reply = await shop.call(name, { ...CAR_RECORD, ...input });
  return reply.ok ? 'kept' : sayError('en', reply.error, { ...PLAIN_MANNER, zone: 'UTC' });
}

/** A car that was taken in, and is ready: its one stage is done. */
async function readyCar(): Promise<JobId> {
  const { jobId, stageIds } = jobWith(shop, ['wash']);
  expect(await said('bookings.arrive', { jobId })).toBe('kept');
  const [stageId] = stageIds;
  if (!stageId) throw new Error('no stage');
  shop.write('bookings.startStage', { stageId, personId: shop.people.technician });
  shop.write('bookings.finishStage', { stageId, draws: [] });
  shop.at(TEST_NOW + DAY);
  return jobId;
}

describe('a mileage below the one before', () => {
  it('is refused at the handover with both figures, until somebody says that it is right', async () => {
    const jobId = await readyCar();
    const sentence =
      'Mileage of 47,100 km now, but 48,120 km were written down on 25 Nov 2026: a car does not drive back. Correct it, or say that the lower one is right. Nothing was saved.';
    expect(await said('bookings.handOver', { jobId, mileage: 47_100 })).toBe(sentence);
    expect((await shop.read('bookings.job', { jobId })).state).toBe('ready');
    expect(await said('bookings.handOver', { jobId, mileage: 47_100, lowerMileage: 'right' })).toBe('kept');
    expect((await shop.read('bookings.job', { jobId })).records.at(-1)?.mileage).toBe(47_100);
  });

  it('is refused at the next visit too, against what was written last, and not where none was read', async () => {
    const first = await readyCar();
    await said('bookings.handOver', { jobId: first, mileage: 48_122 });
    shop.at(TEST_NOW + 90 * DAY);
    const { jobId } = jobWith(shop, ['wash']);
    expect(await said('bookings.arrive', { jobId, mileage: 48_121 })).toMatch(
      /^Mileage of 48,121 km now, but 48,122 km/,
    );
    // 30,000 miles are 48,280 km.
    expect(await said('bookings.arrive', { jobId, mileage: 29_000, mileageUnit: 'mi' })).toMatch(
      /^Mileage of 29,000 mi/,
    );
    expect(await said('bookings.arrive', { jobId, mileage: null })).toBe('kept');
  });

  it('is none for a car that comes for the first time, or with the same reading', async () => {
    const jobId = await readyCar();
    expect(await said('bookings.handOver', { jobId })).toBe('kept');
  });
});

describe('two readings', () => {
  const mileage = fc.integer({ min: 0, max: 9_999_999 });
  it('in one unit run back where the later figure is smaller', () => {
    fc.assert(
      fc.property(mileage, mileage, fc.constantFrom('km', 'mi'), (a, b, mileageUnit) => {
        expect(ranBack({ mileage: a, mileageUnit }, { mileage: b, mileageUnit })).toBe(b < a);
      }),
    );
  });
  it('of one stretch never run back, in whichever units its clock showed it', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 3_000_000_000 }),
        fc.integer({ min: 0, max: 90_000 }),
        (m, more) => {
          const km = (metres: number) => ({ mileage: Math.floor(metres / 1000), mileageUnit: 'km' as const });
          const mi = (metres: number) => ({
            mileage: Math.floor(metres / 1609.344),
            mileageUnit: 'mi' as const,
          });
          expect([ranBack(km(m), mi(m + more)), ranBack(mi(m), km(m + more))]).toEqual([false, false]);
        },
      ),
    );
  });
});
