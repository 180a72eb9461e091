import { afterEach, expect, it } from 'vitest';
import { CAR_RECORD, jobWith } from '#tests/helpers/bookedJob.ts';
import { openTestShop, type TestShop } from '#tests/helpers/shop.ts';

let shop: TestShop;
afterEach(() => shop.close());

it('a car that came unbooked asks for its material today, once it is here', async () => {
  shop = openTestShop();
  const { jobId } = jobWith(shop, ['cut']);
  const missing = async () => (await shop.read('stock.showBoard', {})).missing;
  expect(await missing()).toEqual([]);
  shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
  expect(await missing()).toMatchObject([
    { material: 'heavyCutCompound', booked: 30_000, jobs: 1, firstDay: '2026-11-25' },
  ]);
});
