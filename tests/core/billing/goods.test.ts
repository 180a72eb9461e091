import { afterEach, beforeEach, expect, test } from 'vitest';
import { agreedJob } from '../../helpers/billing.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

test('goods billed beside a job leave its work to be billed: drafted and issued they are not its invoice', async () => {
  const { jobId, customerId } = agreedJob(shop);
  shop.db.raw.prepare("UPDATE job SET state = 'ready' WHERE id = ?").run(jobId);
  const lines = [{ text: 'Drying towel', quantity: 1, priceMinor: 1500 }];
  const goods = shop.write('billing.draftOther', { customerId, jobId, lines });
  expect(shop.write('billing.draftInvoice', { jobId }).invoiceId).not.toBe(goods.invoiceId);
  const { revision } = await shop.read('billing.readInvoice', goods);
  shop.write('billing.issueInvoice', { ...goods, revision });
  const work = shop.write('billing.draftInvoice', { jobId });
  // 807.50 labour and 96.40 material as agreed
  expect((await shop.read('billing.readInvoice', work)).totals.toPayMinor).toBe(90_390);
});

test('a job with only goods billed still waits in the list of what to bill', async () => {
  const { jobId, customerId } = agreedJob(shop);
  shop.db.raw.prepare("UPDATE job SET state = 'ready' WHERE id = ?").run(jobId);
  const lines = [{ text: 'Drying towel', quantity: 1, priceMinor: 1500 }];
  shop.write('billing.draftOther', { customerId, jobId, lines });
  expect((await shop.read('billing.readDesk', {})).toBill.map((b) => b.jobId)).toEqual([jobId]);
  shop.write('billing.draftInvoice', { jobId });
  expect((await shop.read('billing.readDesk', {})).toBill).toEqual([]);
});
