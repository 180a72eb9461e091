import fc from 'fast-check';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { InvoiceId } from '#core/shared/ids.ts';
import { addTestJob, issueDraft } from '../../helpers/billing.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
  shop.db.raw.prepare(`UPDATE shop SET settings = '{"billing":{"pricesIncludeTax":false}}'`).run();
});
afterEach(() => shop.close());

/** An issued invoice of goods at prices before tax. */
async function invoiceOf(prices: readonly number[]): Promise<InvoiceId> {
  const { customerId } = addTestJob(shop);
  const lines = prices.map((priceMinor) => ({ text: 'Drying towel', quantity: 1, priceMinor }));
  const { invoiceId } = shop.write('billing.draftOther', { customerId, lines });
  await issueDraft(shop, invoiceId);
  return invoiceId;
}

function creditLine(invoiceId: InvoiceId, line: number, amountMinor: number): InvoiceId {
  const lines = [{ line, amountMinor }];
  return shop.write('billing.creditInvoice', { invoiceId, lines, reason: 'brought back' }).invoiceId;
}

test('lines credited one by one give back what the invoice asked for, although each rounds its own tax up', async () => {
  // 10.03 + 10.03 = 20.06, 19 % is 3.8114: 23.87 in all. One line alone is 10.03 + 1.9057 = 11.94, twice that 23.88.
  const invoiceId = await invoiceOf([1003, 1003]);
  creditLine(invoiceId, 0, 1003);
  const last = creditLine(invoiceId, 1, 1003);
  expect((await shop.read('billing.readInvoice', { invoiceId: last })).totals).toMatchObject({
    ...{ netMinor: -1003, taxMinor: -191, roundingMinor: 1, toPayMinor: -1193 },
  });
  expect((await shop.read('billing.readInvoice', { invoiceId })).owedMinor).toBe(0);
});

test('nor does a cent stay owed where each rounds its own tax down', async () => {
  // 10.02 + 10.02 = 20.04, 19 % is 3.8076: 23.85 in all. One line alone is 10.02 + 1.9038 = 11.92, twice that 23.84.
  const invoiceId = await invoiceOf([1002, 1002]);
  creditLine(invoiceId, 0, 1002);
  creditLine(invoiceId, 1, 1002);
  expect((await shop.read('billing.readInvoice', { invoiceId })).owedMinor).toBe(0);
});

test('an invoice is wholly credited by its lines in any parts and order', async () => {
  const part = fc.tuple(fc.integer({ min: 2, max: 99_999 }), fc.double({ min: 0, max: 1, noNaN: true }));
  await fc.assert(
    fc.asyncProperty(fc.array(part, { minLength: 1, maxLength: 6 }), async (parts) => {
      const invoiceId = await invoiceOf(parts.map(([price]) => price));
      const firsts = parts.map(([price, share]) => Math.floor(price * share));
      firsts.forEach((amount, line) => {
        if (amount > 0) creditLine(invoiceId, line, amount);
      });
      parts.forEach(([price], line) => {
        const rest = price - (firsts[line] ?? 0);
        if (rest > 0) creditLine(invoiceId, line, rest);
      });
      expect((await shop.read('billing.readInvoice', { invoiceId })).owedMinor).toBe(0);
    }),
    { numRuns: 40 },
  );
});
