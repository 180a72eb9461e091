import { afterEach, beforeEach, expect, test } from 'vitest';
import { CAR_RECORD, jobWith } from '../../helpers/bookedJob.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

test('erasing a customer empties name, signature and belongings in the records of their cars too', async () => {
  const { jobId, customerId } = jobWith(shop, ['wash']);
  const strokes = [
    [
      [10, 20],
      [30, 40],
    ],
  ] as never;
  shop.write('bookings.arrive', { jobId, ...CAR_RECORD, agreedWay: 'signature', strokes });
  shop.write('bookings.cancelJob', { jobId, reason: 'changed their mind', deposit: null });
  const { customer } = await shop.read('people.customerPage', { customerId });
  shop.write('people.eraseCustomer', { customerId, revision: customer.revision });
  expect(shop.db.raw.prepare('SELECT agreed_by, belongings, strokes FROM car_record').all()).toEqual([
    { agreed_by: '–', belongings: '', strokes: '[]' },
  ]);
});
