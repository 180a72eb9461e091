import { afterEach, beforeEach, expect, it } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import { addTestJob, agreedJob, askPrepaymentInvoices, billJob } from '../../helpers/billing.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const strip = async (jobId: JobId) => (await shop.read('bookings.hand', { jobIds: [jobId] }))[0]?.money;

it('the strip says what a job is quoted at, then what is still to pay, then that all is paid', async () => {
  expect(await strip(addTestJob(shop).jobId)).toBeNull();
  const { jobId } = agreedJob(shop);
  const quoted = await strip(jobId);
  expect(quoted?.kind).toBe('quoted');
  const all = quoted?.minor ?? 0;
  const invoiceId = await billJob(shop, jobId);
  expect(await strip(jobId)).toEqual({ kind: 'owed', minor: all });
  const pay = { invoiceIds: [invoiceId], way: 'card' as const };
  shop.write('billing.takePayment', { ...pay, amountMinor: 10_000 });
  expect(await strip(jobId)).toEqual({ kind: 'owed', minor: all - 10_000 });
  shop.write('billing.takePayment', { ...pay, amountMinor: all - 10_000 });
  expect(await strip(jobId)).toEqual({ kind: 'paid', minor: all });
});

it('a deposit that is paid leaves the quote on the strip, also where it was asked for by invoice', async () => {
  askPrepaymentInvoices(shop);
  const { jobId } = agreedJob(shop);
  const quoted = await strip(jobId);
  shop.write('billing.takeDeposit', { jobId, amountMinor: 18_000, way: 'card' });
  expect(await strip(jobId)).toEqual(quoted);
});

it('names a deposit that the bill left over among what waits, until it is paid back', async () => {
  const { jobId } = agreedJob(shop);
  shop.write('billing.takeDeposit', { jobId, amountMinor: 999_900, way: 'card' });
  const held = async () => (await shop.read('billing.readDesk', {})).deposits;
  expect(await held()).toMatchObject([{ jobId, heldMinor: 999_900, over: false }]);
  await billJob(shop, jobId);
  const [left] = await held();
  expect(left?.over).toBe(true);
  expect(left?.heldMinor).toBeGreaterThan(0);
  const back = { jobId, outcome: 'returned' as const, feeMinor: null, way: 'card' as const, toJobId: null };
  expect(shop.write('billing.settleDeposit', back).returnedMinor).toBe(left?.heldMinor);
  expect(await held()).toEqual([]);
});
