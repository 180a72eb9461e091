import { afterEach, beforeEach, expect, test } from 'vitest';
import type { InvoiceId } from '#core/shared/ids.ts';
import { agreedJob, billJob } from '../../helpers/billing.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

const WEEK = 7 * 86_400_000;
let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
  // 19 % until the end of November, 21 % from the first of December
  shop.db.raw
    .prepare(
      `INSERT INTO tax_rate (id, code, name, category, rate_ppm, reason, from_day, added_ms)
       VALUES ('x0000000000000000001', 'standard', 'VAT', 'S', 210000, '', '2026-12-01', 0)`,
    )
    .run();
});
afterEach(() => shop.close());

const ratesOf = async (invoiceId: InvoiceId): Promise<readonly number[]> =>
  (await shop.read('billing.readInvoice', { invoiceId })).totals.taxes.map((tax) => tax.ratePpm);

test('work quoted under an older rate is billed under the one of the day it was ready, at the agreed price', async () => {
  const [before, after] = [agreedJob(shop), agreedJob(shop)];
  const first = await billJob(shop, before.jobId);
  shop.at(TEST_NOW + WEEK);
  const second = await billJob(shop, after.jobId);
  expect([await ratesOf(first), await ratesOf(second)]).toEqual([[190_000], [210_000]]);
  const { totals } = await shop.read('billing.readInvoice', { invoiceId: second });
  // 903.90 × 21 / 121 = 156.88, so 747.02 before tax; 21 % of that is 156.87, and a cent of rounding
  expect(totals).toMatchObject({
    ...{ toPayMinor: 90_390, netMinor: 74_702, taxMinor: 15_687, roundingMinor: 1 },
  });
});

test('work that was ready under the older rate keeps it, however late it is billed', async () => {
  const { jobId } = agreedJob(shop);
  shop.db.raw.prepare('UPDATE job SET ready_ms = ? WHERE id = ?').run(TEST_NOW, jobId);
  shop.at(TEST_NOW + WEEK);
  expect(await ratesOf(await billJob(shop, jobId))).toEqual([190_000]);
});

test('prices before tax keep their net when the rate changes', async () => {
  const { jobId } = agreedJob(shop, { taxIncluded: false });
  shop.at(TEST_NOW + WEEK);
  const invoiceId = await billJob(shop, jobId);
  // 903.90 + 21 % = 189.819 → 189.82
  const { totals } = await shop.read('billing.readInvoice', { invoiceId });
  expect(totals).toMatchObject({ netMinor: 90_390, taxMinor: 18_982, toPayMinor: 109_372 });
});
