import { afterEach, beforeEach, expect, test } from 'vitest';
import type { Minor } from '#core/shared/units.ts';
import { addJob, type PaintCase } from '#tests/core/paint/job.ts';
import { openTestShop, type TestShop } from '#tests/helpers/shop.ts';

let shop: TestShop;
let job: PaintCase;
beforeEach(() => {
  shop = openTestShop();
  job = addJob(shop);
});
afterEach(() => shop.close());

const LITRE = 1_000_000;

/** What a plan asks for materials, and for each base unit of shampoo, of which alone a price is known. */
async function asked() {
  shop.write('estimate.provisional', { jobId: job.jobId, wish: 'oneStage', condition: 'worn' });
  const [newest] = await shop.read('estimate.ofJob', { jobId: job.jobId });
  if (!newest) throw new Error('no estimate');
  const amount = newest.stages
    .flatMap((s) => s.materials)
    .filter((m) => m.material === 'shampoo')
    .reduce((sum, m) => sum + m.amount, 0);
  return { materialsMinor: newest.price.materialsMinor, amount };
}

test('goods that nobody is written down as selling are asked for at what the latest of them cost', async () => {
  expect((await asked()).materialsMinor).toBe(0);
  const { itemId } = shop.write('stock.addItem', {
    ...{ name: 'Shampoo', material: 'shampoo', unit: 'ul', packSize: LITRE, packWord: 'bottle' },
    opening: { amount: LITRE, valueMinor: 40_000 as Minor },
  });
  // 0.04 a microlitre, the example markup of 30 %, the example tax of 19 %: by hand.
  const byCost = await asked();
  expect(byCost.materialsMinor).toBe(Math.round(byCost.amount * 0.04 * 1.3 * 1.19));
  const { supplierId } = shop.write('stock.addSupplier', { name: 'Corran Vale', leadDays: 1 });
  shop.write('stock.linkSupplier', { supplierId, itemId, packSize: LITRE, priceMinor: 50_000 as Minor });
  // What it will cost anew goes before what it once cost.
  const byPrice = await asked();
  expect(byPrice.materialsMinor).toBe(Math.round(byPrice.amount * 0.05 * 1.3 * 1.19));
});
