import { afterEach, beforeEach, expect, it } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import {
  addTestJob,
  agreedJob,
  askPrepaymentInvoices,
  billJob,
  quoteJob,
  testEstimate,
} from '../../helpers/billing.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

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
  shop.write('billing.takeDeposit', { jobId, amountMinor: 999_900, way: 'card', aboveQuote: true });
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

it('asks before a deposit that with what is held comes to more than the quote', async () => {
  const { jobId } = agreedJob(shop);
  const take = (amountMinor: number, aboveQuote = false) =>
    shop.call('billing.takeDeposit', { jobId, amountMinor, way: 'card', aboveQuote });
  expect(await take(18_000)).toMatchObject({ ok: true });
  // The job is agreed at 903.90: all of it may be paid beforehand.
  expect(await take(72_391)).toMatchObject({
    error: {
      code: 'DEPOSIT_ABOVE_QUOTE',
      data: { quotedMinor: 90_390, aboveMinor: 1 },
    },
  });
  expect(await take(72_390)).toMatchObject({ ok: true });
  expect(await take(1)).toMatchObject({ error: { code: 'DEPOSIT_ABOVE_QUOTE' } });
  expect(await take(1, true)).toMatchObject({ ok: true });
});

it('asks of a quote that nobody agreed to yet by its dearest option, and of a job without a quote nothing', async () => {
  const { jobId } = addTestJob(shop);
  const take = (amountMinor: number) =>
    shop.call('billing.takeDeposit', { jobId, amountMinor, way: 'card' as const });
  expect(await take(999_900)).toMatchObject({ ok: true });
  const other = addTestJob(shop).jobId;
  quoteJob(shop, other, [testEstimate(other), testEstimate(other, { labour: 100_750 })]);
  const dear =
    (await shop.read('billing.readJobQuote', { jobId: other }))?.options[1]?.totals.toPayMinor ?? 0;
  const taken = { jobId: other, way: 'card' as const };
  expect(await shop.call('billing.takeDeposit', { ...taken, amountMinor: dear + 1 })).toMatchObject({
    error: { code: 'DEPOSIT_ABOVE_QUOTE', data: { quotedMinor: dear, aboveMinor: 1 } },
  });
  expect(await shop.call('billing.takeDeposit', { ...taken, amountMinor: dear })).toMatchObject({ ok: true });
});

it('charges whoever did not come a fee by an invoice of its own, also where nothing is held', async () => {
  const { jobId } = agreedJob(shop);
  shop.db.raw.prepare("UPDATE job SET state = 'booked' WHERE id = ?").run(jobId);
  const deposit = { outcome: 'kept' as const, feeMinor: 6000, way: 'transfer' as const };
  shop.write('bookings.noShow', { jobId, reason: '', deposit });
  expect(await strip(jobId)).toEqual({ kind: 'owed', minor: 6000 });
  expect(await shop.read('billing.readJobMoney', { jobId })).toMatchObject({
    invoicedMinor: 6000,
    owedMinor: 6000,
  });
});

it('says on a customer’s page what is held for them beside what they owe', async () => {
  const { jobId, customerId } = agreedJob(shop);
  shop.write('billing.takeDeposit', { jobId, amountMinor: 18_000, way: 'card' });
  const moneyOf = async () => (await shop.read('people.customerPage', { customerId })).money;
  expect(await moneyOf()).toMatchObject({ owedMinor: 0, openInvoices: 0, heldMinor: 18_000 });
  const invoiceId = await billJob(shop, jobId);
  expect(await moneyOf()).toMatchObject({ owedMinor: 72_390, heldMinor: 0 });
  const how = { way: 'card' as const, surplus: 'credit' as const };
  shop.write('billing.takePayment', { invoiceIds: [invoiceId], amountMinor: 73_000, ...how });
  expect(await moneyOf()).toMatchObject({ owedMinor: 0, heldMinor: 610 });
});

it('asks for no second reminder on the day the first one went out', async () => {
  const { jobId } = agreedJob(shop);
  const invoiceId = await billJob(shop, jobId);
  const DAY = 86_400_000;
  const levels = async () => (await shop.read('billing.readDesk', {})).reminders.map((r) => r.level);
  shop.at(TEST_NOW + 60 * DAY);
  expect(await levels()).toEqual([1]);
  shop.write('billing.remindInvoice', { invoiceId, level: 1 });
  expect(await levels()).toEqual([]);
  shop.at(TEST_NOW + 67 * DAY);
  expect(await levels()).toEqual([2]);
});
