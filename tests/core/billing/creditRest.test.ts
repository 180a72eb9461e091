import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it, test } from 'vitest';
import { examine } from '#core/doctor/doctor.ts';
import type { InvoiceId } from '#core/shared/ids.ts';
import {
  addTestJob,
  agreedJob,
  askPrepaymentInvoices,
  billJob,
  issueDraft,
  refusalOf,
} from '../../helpers/billing.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
  shop.db.raw.prepare(`UPDATE shop SET settings = '{"billing":{"pricesIncludeTax":false}}'`).run();
});
afterEach(() => shop.close());

/** An issued invoice of goods at prices before tax, less a discount. */
async function invoiceOf(prices: readonly number[], discount = 0): Promise<InvoiceId> {
  const { customerId } = addTestJob(shop);
  const lines = prices.map((priceMinor) => ({ text: 'Drying towel', quantity: 1, priceMinor }));
  const { invoiceId } = shop.write('billing.draftOther', { customerId, lines });
  if (discount > 0) {
    const { bill, revision } = await shop.read('billing.readInvoice', { invoiceId });
    const tax = bill.lines[0]?.tax;
    if (!tax) throw new Error('no line');
    const extras = [{ text: 'Discount', amountMinor: -discount, tax }];
    shop.write('billing.changeDraft', { invoiceId, revision, lines: [...bill.lines], extras });
  }
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
      for (const [line, [price]] of parts.entries()) {
        const rest = price - (firsts[line] ?? 0);
        // Tax rounded up on the notes before may have given back the last unit already.
        const { wholeCredited } = await shop.read('billing.readInvoice', { invoiceId });
        if (rest > 0 && !wholeCredited) creditLine(invoiceId, line, rest);
      }
      expect((await shop.read('billing.readInvoice', { invoiceId })).owedMinor).toBe(0);
    }),
    { numRuns: 40 },
  );
});

describe('after a credit note for a part', () => {
  const rest = (invoiceId: InvoiceId): InvoiceId =>
    shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'wrong payer' }).invoiceId;

  it('the whole document is what is left of it', async () => {
    const invoiceId = await invoiceOf([1003, 1003]);
    creditLine(invoiceId, 0, 500);
    const before = await shop.read('billing.readInvoice', { invoiceId });
    expect([before.lineLeftMinor, before.wholeCredited]).toEqual([[503, 1003], false]);
    const note = await shop.read('billing.readInvoice', { invoiceId: rest(invoiceId) });
    expect(note.totals.lineShownMinor).toEqual([-503, -1003]);
    const after = await shop.read('billing.readInvoice', { invoiceId });
    expect([after.owedMinor, after.wholeCredited]).toEqual([0, true]);
    expect(await refusalOf(shop, 'billing.creditInvoice', { invoiceId, lines: null, reason: 'again' })).toBe(
      'NOTHING_TO_CREDIT',
    );
  });

  it('the last of the lines takes its discount back with it', async () => {
    // 100.00 + 50.00 less 20.00 is 130.00, with 19 % 154.70
    const invoiceId = await invoiceOf([10_000, 5000], 2000);
    creditLine(invoiceId, 0, 10_000);
    const last = await shop.read('billing.readInvoice', { invoiceId: creditLine(invoiceId, 1, 5000) });
    expect(last.totals).toMatchObject({ netMinor: -3000, toPayMinor: -3570 });
    expect((await shop.read('billing.readInvoice', { invoiceId })).owedMinor).toBe(0);
    expect(examine(shop.db)).toEqual([]);
  });

  it('a bill is credited to its last line although prepayments were deducted, and these are free again', async () => {
    askPrepaymentInvoices(shop);
    const { jobId } = agreedJob(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 20_000, way: 'card' });
    const invoiceId = await billJob(shop, jobId);
    const { bill, lineLeftMinor } = await shop.read('billing.readInvoice', { invoiceId });
    expect(lineLeftMinor.at(-1)).toBeLessThan(0);
    const lines = bill.lines.flatMap((_, line) => {
      const amountMinor = lineLeftMinor[line] ?? 0;
      return amountMinor > 0 ? [{ line, amountMinor }] : [];
    });
    creditLine(invoiceId, 0, 5000);
    const left = lines.map((l) => (l.line === 0 ? { ...l, amountMinor: l.amountMinor - 5000 } : l));
    shop.write('billing.creditInvoice', { invoiceId, lines: left, reason: 'wrong payer' });
    expect(await shop.read('billing.readInvoice', { invoiceId })).toMatchObject({
      ...{ owedMinor: 0, wholeCredited: true },
    });
    expect((await shop.read('billing.readDesk', {})).depositsMinor).toBe(20_000);
    expect(examine(shop.db)).toEqual([]);
  });

  it('in any parts and with any discount the rest leaves nothing owed', async () => {
    const shares = fc.array(fc.tuple(fc.integer({ min: 200, max: 99_999 }), fc.integer({ min: 0, max: 9 })), {
      ...{ minLength: 1, maxLength: 5 },
    });
    await fc.assert(
      fc.asyncProperty(shares, fc.integer({ min: 1, max: 100 }), async (parts, discount) => {
        const invoiceId = await invoiceOf(
          parts.map(([price]) => price),
          discount,
        );
        // Nine tenths of what is left after the discount at most, so that something is left to credit.
        parts.forEach(([price, tenths], line) => {
          const amount = Math.floor(((price - 100) * tenths) / 10);
          if (amount > 0) creditLine(invoiceId, line, amount);
        });
        rest(invoiceId);
        expect(await shop.read('billing.readInvoice', { invoiceId })).toMatchObject({
          ...{ owedMinor: 0, wholeCredited: true },
        });
      }),
      { numRuns: 25 },
    );
    expect(examine(shop.db)).toEqual([]);
  });
});
