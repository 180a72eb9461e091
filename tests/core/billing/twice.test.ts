import { afterEach, beforeEach, expect, test } from 'vitest';
import { agreedJob, askPrepaymentInvoices, billJob, issueDraft, refusalOf } from '../../helpers/billing.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

test('an invoice named twice for one payment is owed once: what is above it has to be named', async () => {
  const { jobId } = agreedJob(shop);
  const invoiceId = await billJob(shop, jobId);
  const money = { invoiceIds: [invoiceId, invoiceId], way: 'cash' as const };
  expect(await shop.call('billing.takePayment', { ...money, amountMinor: 180_780 })).toMatchObject({
    error: { code: 'MONEY_ABOVE_OWED', data: { owedMinor: 90_390, aboveMinor: 90_390 } },
  });
  shop.write('billing.takePayment', { ...money, amountMinor: 90_390 });
  expect((await shop.read('billing.readInvoice', { invoiceId })).owedMinor).toBe(0);
});

test('a reminder noted at two windows is noted once, by whoever was first', async () => {
  const { jobId } = agreedJob(shop);
  const invoiceId = await billJob(shop, jobId);
  shop.at(TEST_NOW + 30 * 86_400_000);
  shop.write('billing.remindInvoice', { invoiceId, level: 1 });
  shop.at(TEST_NOW + 31 * 86_400_000);
  expect(await refusalOf(shop, 'billing.remindInvoice', { invoiceId, level: 1 })).toBe('accepted');
  expect((await shop.read('billing.readInvoice', { invoiceId })).reminders).toEqual([
    { level: 1, atMs: TEST_NOW + 30 * 86_400_000 },
  ]);
});

test('an invoice that asks for nothing after its prepayment is credited once', async () => {
  askPrepaymentInvoices(shop);
  const { jobId } = agreedJob(shop);
  shop.write('billing.takeDeposit', { jobId, amountMinor: 90_390, way: 'card' });
  const invoiceId = await billJob(shop, jobId);
  const whole = { invoiceId, lines: null, reason: 'wrong payer' };
  expect(await refusalOf(shop, 'billing.creditInvoice', whole)).toBe('accepted');
  expect(await refusalOf(shop, 'billing.creditInvoice', whole)).toBe('NOTHING_TO_CREDIT');
});

test('nothing is paid back on a draft, whatever it asks for', async () => {
  // Paid beforehand on an invoice of its own, the work then came to less: the shop owes what is above it.
  askPrepaymentInvoices(shop);
  const { jobId } = agreedJob(shop);
  shop.write('billing.takeDeposit', { jobId, amountMinor: 80_000, way: 'card' });
  const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
  const { bill, revision } = await shop.read('billing.readInvoice', { invoiceId });
  const tax = bill.lines[0]?.tax;
  if (!tax) throw new Error('no line');
  const lines = bill.lines.filter((line) => line.what !== 'deposit');
  const extras = [{ text: 'Discount', amountMinor: -40_000, tax }];
  shop.write('billing.changeDraft', { invoiceId, revision, lines, extras });
  const back = { amountMinor: 100 };
  expect(
    await refusalOf(shop, 'billing.refund', { ...back, from: 'invoice', id: invoiceId, way: 'cash' }),
  ).toBe('INVOICE_NOT_ISSUED');
  expect(await refusalOf(shop, 'billing.keepAsCredit', { ...back, invoiceId })).toBe('INVOICE_NOT_ISSUED');
  await issueDraft(shop, invoiceId);
  expect(await refusalOf(shop, 'billing.keepAsCredit', { ...back, invoiceId })).toBe('accepted');
});

test('an invoice paid in two parts is one document of the tax by money received', async () => {
  const { jobId } = agreedJob(shop);
  const invoiceIds = [await billJob(shop, jobId)];
  shop.write('billing.takePayment', { invoiceIds, amountMinor: 40_000, way: 'card' });
  shop.write('billing.takePayment', { invoiceIds, amountMinor: 50_390, way: 'cash' });
  const period = { fromDay: '2026-11-25', toDay: '2026-11-25', basis: 'payment' as const };
  // 903.90 with 19 %: 759.58 and 144.32
  expect((await shop.read('billing.readTaxReport', period)).rows).toMatchObject([
    { taxableMinor: 75_958, taxMinor: 14_432, documents: 1 },
  ]);
});
