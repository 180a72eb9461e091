import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { ItemId, JobId } from '#core/shared/ids.ts';
import type { Minor } from '#core/shared/units.ts';
import { marginRows } from '#core/views/margin.ts';
import { addTestJob, issueDraft, quoteJob, refusalOf, testEstimate } from '../../helpers/billing.ts';
import { CAR_RECORD } from '../../helpers/bookedJob.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const LITRE = 1_000_000;
/** Two litres that cost 8.00. */
function shampoo(reusable = false): ItemId {
  return shop.write('stock.addItem', {
    ...{
      name: 'Shampoo',
      material: 'shampoo',
      unit: reusable ? 'piece' : 'ul',
      packSize: reusable ? 1 : LITRE,
    },
    ...{ packWord: 'bottle', reusable },
    ...(reusable ? { material: null } : {}),
    opening: { amount: reusable ? 1 : 2 * LITRE, valueMinor: 800 as Minor },
  }).itemId;
}
const sell = (itemId: ItemId | null, more: { readonly priceMinor?: number | null; fromDay?: string } = {}) =>
  shop.write('shop.setListPrice', {
    ...{ kind: 'item', name: 'Shampoo, 500 ml', priceMinor: 1200 },
    ...(itemId ? { stock: { itemId, amount: LITRE / 2 } } : {}),
    ...more,
  }).id;

/** A job that is ready, its customer agreed to `pieces` of the thing. */
function readyWith(priceId: string, pieces: number): JobId {
  const { jobId } = addTestJob(shop);
  const things = [[{ priceId, pieces, discountMinor: 0 as Minor }]];
  const quoteId = quoteJob(shop, jobId, [testEstimate(jobId)], '', { things });
  shop.write('billing.acceptQuote', { quoteId, revision: 1, letter: 'A', name: 'Marit Vane', way: 'spoken' });
  const ready = shop.db.raw.prepare(
    "UPDATE job SET state = 'ready', arrived_ms = :at, ready_ms = :at WHERE id = :jobId",
  );
  ready.run({ jobId, at: shop.now() });
  return jobId;
}
const lines = (): unknown[] =>
  shop.db.raw
    .prepare("SELECT job_id AS jobId, qty, value_minor AS value FROM stock_movement WHERE reason = 'draw'")
    .all();

describe('a thing that was agreed beside the work', () => {
  it('leaves the stock when the car is handed over, once, however often the job is billed', async () => {
    const jobId = readyWith(sell(shampoo()), 2);
    for (const again of [true, false]) {
      const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
      await issueDraft(shop, invoiceId);
      if (again) shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'wrong address' });
    }
    expect(lines()).toEqual([]);
    shop.write('bookings.handOver', { jobId, ...CAR_RECORD });
    // Half of what lay there, at what it cost.
    expect(lines()).toEqual([{ jobId, qty: -LITRE, value: -400 }]);
    expect(await refusalOf(shop, 'bookings.handOver', { jobId, ...CAR_RECORD })).toBe('JOB_STATE');
    expect(lines()).toHaveLength(1);
    // 903.90 of work and 24.00 with 19 % tax in it; what the shampoo cost is the job's.
    expect(marginRows(shop.db, 0, shop.now() + 1)).toMatchObject([
      { jobId, netMinor: 77_975, materialMinor: 400 },
    ]);
  });

  it('stays where the desk did not hand it over, and where the hand-over itself is refused', async () => {
    const jobId = readyWith(sell(shampoo()), 1);
    const unsigned = { jobId, ...CAR_RECORD, agreedWay: 'signature' };
    expect(await refusalOf(shop, 'bookings.handOver', unsigned)).toBe('SIGNATURE_MISSING');
    expect(lines()).toEqual([]);
    shop.write('bookings.handOver', { jobId, ...CAR_RECORD, things: false });
    expect(lines()).toEqual([]);
  });

  it('is gone also where the book has less: it goes below nothing and asks for a count', () => {
    const itemId = shampoo();
    shop.write('bookings.handOver', { jobId: readyWith(sell(itemId), 6), ...CAR_RECORD });
    expect(lines()).toMatchObject([{ qty: -3 * LITRE }]);
    const count = shop.db.raw.prepare('SELECT why FROM stock_count WHERE item_id = ?').get(itemId);
    expect(count).toEqual({ why: 'negative' });
  });

  it('comes from the item that the list names on the day it is handed over, also when it is sold no more', () => {
    const priceId = sell(null);
    const jobId = readyWith(priceId, 1);
    shop.at(shop.now() + 86_400_000);
    sell(shampoo());
    shop.at(shop.now() + 86_400_000);
    sell(null, { priceMinor: null });
    shop.write('bookings.handOver', { jobId, ...CAR_RECORD });
    expect(lines()).toMatchObject([{ qty: -LITRE / 2 }]);
  });
});

describe('a thing of the price list', () => {
  it('keeps its tax and its stock at its next price, until they are said anew', async () => {
    const itemId = shampoo();
    const name = 'Shampoo, 500 ml';
    shop.write('shop.setListPrice', {
      ...{ kind: 'item', name, priceMinor: 1200, tax: 'reduced', stock: { itemId, amount: LITRE / 2 } },
    });
    shop.write('shop.setListPrice', { kind: 'item', name, priceMinor: 1300, fromDay: '2027-01-01' });
    shop.write('shop.setListPrice', {
      kind: 'item',
      name,
      priceMinor: 1300,
      fromDay: '2027-02-01',
      stock: null,
    });
    const { listPrices } = await shop.read('shop.page', {});
    expect(listPrices.map((row) => [row.tax, row.itemId, row.itemQty])).toEqual([
      ['reduced', null, 0],
      ['reduced', itemId, LITRE / 2],
      ['reduced', itemId, LITRE / 2],
    ]);
  });

  it('is not what goes round in the shop', async () => {
    const stock = { itemId: shampoo(true), amount: 1 };
    const price = { kind: 'item', name: 'Mitt', priceMinor: 900, stock };
    expect(await refusalOf(shop, 'shop.setListPrice', price)).toBe('THING_GOES_ROUND');
  });
});
