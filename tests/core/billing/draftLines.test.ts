import { afterEach, beforeEach, expect, test } from 'vitest';
import type { LineTax } from '#core/shared/bill.ts';
import { addTestJob, agreedJob } from '../../helpers/billing.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

/* EN 16931-1: BR-S-05, BR-Z-05, BR-E-05, BR-AE-05 say which category has a rate; BR-E-10 and its like ask for the reason. */
test.each<[string, Partial<LineTax>, string]>([
  ['an exempt line with a rate', { category: 'E', reason: 'small business' }, 'lines.0.tax.ratePpm'],
  ['a taxed line without one', { ratePpm: 0 }, 'lines.0.tax.ratePpm'],
  ['a reverse charge without its reason', { category: 'AE', ratePpm: 0 }, 'lines.0.tax.reason'],
])('%s is refused on a draft, by the name of its field', async (_, tax, field) => {
  const { customerId } = addTestJob(shop);
  const lines = [{ text: 'Drying towel', quantity: 1, priceMinor: 1500 }];
  const { invoiceId } = shop.write('billing.draftOther', { customerId, lines });
  const { bill, revision } = await shop.read('billing.readInvoice', { invoiceId });
  const changed = bill.lines.map((line) => ({ ...line, tax: { ...line.tax, ...tax } }));
  expect(await shop.call('billing.changeDraft', { invoiceId, revision, lines: changed })).toMatchObject({
    error: { code: 'BAD_INPUT', data: { field } },
  });
});

test('a zero rated line needs neither rate nor reason', async () => {
  const { customerId } = addTestJob(shop);
  const lines = [{ text: 'Drying towel', quantity: 1, priceMinor: 1500 }];
  const { invoiceId } = shop.write('billing.draftOther', { customerId, lines });
  const { bill, revision } = await shop.read('billing.readInvoice', { invoiceId });
  const zero = { category: 'Z', ratePpm: 0 } as const;
  const changed = bill.lines.map((line) => ({ ...line, tax: { ...line.tax, ...zero } }));
  expect(await shop.call('billing.changeDraft', { invoiceId, revision, lines: changed })).toMatchObject({
    ok: true,
  });
});

test('keeps no discount that takes off more than the work costs, and issues no invoice below zero', async () => {
  const { jobId } = agreedJob(shop);
  const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
  const { bill, revision, totals } = await shop.read('billing.readInvoice', { invoiceId });
  const tax = bill.lines[0]?.tax;
  if (!tax) throw new Error('no line');
  const lines = [...bill.lines];
  const less = (amountMinor: number) => [{ text: 'Discount', amountMinor: -amountMinor, tax }];
  const whole = { invoiceId, revision, lines, extras: less(totals.toPayMinor + 1) };
  expect(await shop.call('billing.changeDraft', whole)).toMatchObject({
    error: { code: 'BILL_BELOW_ZERO', data: { belowMinor: 1 } },
  });
  expect(await shop.call('billing.changeDraft', { ...whole, extras: less(totals.toPayMinor) })).toMatchObject(
    {
      ok: true,
    },
  );
  // A draft of before that lies below zero is not issued either.
  shop.db.raw
    .prepare("UPDATE invoice SET bill = json_set(bill, '$.extras[0].amountMinor', -9999900) WHERE id = ?")
    .run(invoiceId);
  expect(
    await shop.call('billing.issueInvoice', {
      invoiceId,
      revision: revision + 1,
      date: 'today',
      aheadOfWork: true,
    }),
  ).toMatchObject({ error: { code: 'BILL_BELOW_ZERO' } });
});
