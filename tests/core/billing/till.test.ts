import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkCoins, inCash, roundedOff } from '#core/billing/rules/cash.ts';
import type { InvoiceId } from '#core/shared/ids.ts';
import type { Minor } from '#core/shared/units.ts';
import { agreedJob, billJob, bookingsOf, refusalOf } from '../../helpers/billing.ts';
import { pdfText } from '../../helpers/pdfText.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

const DAY = { fromDay: '2026-11-25', toDay: '2026-11-25' };
let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
  shop.db.raw.prepare('UPDATE shop SET settings = \'{"billing":{"cashStepMinor":5}}\'').run();
});
afterEach(() => shop.close());

/** An invoice of an amount that no coins of five make. */
async function odd(labour: number): Promise<InvoiceId> {
  return billJob(shop, agreedJob(shop, { labour, materials: 0 }).jobId);
}

async function balance(account: string): Promise<number> {
  const rows = bookingsOf((await shop.read('billing.journalFile', DAY)).bytes);
  expect(rows.reduce((t, r) => t + r.debitMinor - r.creditMinor, 0)).toBe(0);
  return rows.filter((r) => r.account === account).reduce((t, r) => t + r.debitMinor - r.creditMinor, 0);
}

describe('cash in coins', () => {
  it('goes to the nearest five hundredths, half away from zero, also in currencies of 0 and 3 digits', () => {
    // By hand: 10.02 is 10.00, 10.03 is 10.05, −10.03 is −10.05; 1,003 of a currency without decimals is 1,005.
    expect([1002, 1003, -1003, 1000].map((v) => inCash(v, 5))).toEqual([1000, 1005, -1005, 1000]);
    expect(inCash(1003, 5)).toBe(1005);
    expect(inCash(10_025, 50)).toBe(10_050);
    expect(inCash(1002, 1)).toBe(1002);
  });

  it('whatever the amount and the step: never more than half a step away, and taken as it is', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -1_000_000, max: 1_000_000 }),
        fc.integer({ min: 1, max: 1000 }),
        (owed, step) => {
          const coins = inCash(owed, step);
          expect(Math.abs(coins - owed) * 2).toBeLessThanOrEqual(step);
          expect(coins + roundedOff('cash', owed as Minor, coins, step)).toBe(owed);
          expect(roundedOff('card', owed as Minor, coins, step)).toBe(0);
          checkCoins('cash', coins, step);
        },
      ),
    );
  });

  it.each([
    [10_002, 10_000, 2],
    [10_003, 10_005, -2],
  ])('settles an invoice of %i with %i, and books the rest as rounding', async (owed, coins, rounding) => {
    const invoiceId = await odd(owed);
    expect((await shop.read('billing.readInvoice', { invoiceId })).owedCashMinor).toBe(coins);
    const { receipt } = shop.write('billing.takePayment', {
      invoiceIds: [invoiceId],
      amountMinor: coins,
      way: 'cash',
    });
    expect((await shop.read('billing.readInvoice', { invoiceId })).owedMinor).toBe(0);
    expect(await balance('cash')).toBe(coins);
    expect(await balance('receivables')).toBe(0);
    expect(await balance('rounding')).toBe(rounding || 0);
    const tax = { ...DAY, basis: 'payment' as const };
    expect((await shop.read('billing.readTaxReport', tax)).taxMinor).toBe(
      (await shop.read('billing.readTaxReport', DAY)).taxMinor,
    );
    const paper = (await pdfText((await shop.read('billing.receiptFile', { receipt })).bytes)).join(' ');
    expect(paper).toContain('Rounded in cash by');
    expect(shop.db.raw.prepare('SELECT count(*) FROM payment').pluck().get()).toBe(2);
  });

  it('settles several invoices of one payer at once', async () => {
    const ids = [await odd(10_001), await odd(10_001)];
    shop.db.raw.exec(
      'DROP TRIGGER invoice_issued_no_update; UPDATE invoice SET customer_id = (SELECT min(customer_id) FROM invoice)',
    );
    shop.write('billing.takePayment', { invoiceIds: ids, amountMinor: 20_000, way: 'cash' });
    for (const invoiceId of ids)
      expect((await shop.read('billing.readInvoice', { invoiceId })).owedMinor).toBe(0);
  });

  it('is paid back in coins after a credit note', async () => {
    const invoiceId = await odd(10_003);
    shop.write('billing.takePayment', { invoiceIds: [invoiceId], amountMinor: 10_003, way: 'card' });
    shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'not done' });
    const back = { from: 'invoice', id: invoiceId, way: 'cash' };
    expect(await refusalOf(shop, 'billing.refund', { ...back, amountMinor: 10_010 })).toBe(
      'REFUND_ABOVE_PAID',
    );
    expect(await refusalOf(shop, 'billing.refund', { ...back, amountMinor: 10_005 })).toBe('accepted');
    expect((await shop.read('billing.readInvoice', { invoiceId })).owedMinor).toBe(0);
    expect([await balance('receivables'), await balance('cash'), await balance('rounding')]).toEqual([
      0, -10_005, 2,
    ]);
  });

  it('is refused for what no coins make, taken or paid back, and for a deposit', async () => {
    const invoiceId = await odd(10_002);
    const take = { invoiceIds: [invoiceId], amountMinor: 3001, way: 'cash' };
    expect(await refusalOf(shop, 'billing.takePayment', take)).toBe('CASH_NOT_ROUND');
    expect(await refusalOf(shop, 'billing.takePayment', { ...take, way: 'card' })).toBe('accepted');
    const { jobId } = agreedJob(shop);
    expect(await refusalOf(shop, 'billing.takeDeposit', { jobId, amountMinor: 3001, way: 'cash' })).toBe(
      'CASH_NOT_ROUND',
    );
  });
});

describe('the till', () => {
  const count = (input: unknown): Promise<string> => refusalOf(shop, 'billing.countCash', input);

  it('holds what was left in it and the cash since, less what went to the bank', async () => {
    const { jobId } = agreedJob(shop);
    expect(await count({ expectedMinor: 0, countedMinor: 10_000, reason: 'to begin with' })).toBe('accepted');
    shop.write('billing.takeDeposit', { jobId, amountMinor: 5000, way: 'cash' });
    shop.write('billing.takeDeposit', { jobId, amountMinor: 700, way: 'card' });
    expect((await shop.read('billing.readTill', {})).expectedMinor).toBe(15_000);
    expect(
      await count({ expectedMinor: 15_000, countedMinor: 14_950, bankedMinor: 9950, reason: 'nobody knows' }),
    ).toBe('accepted');
    const till = await shop.read('billing.readTill', {});
    expect(till.expectedMinor).toBe(5000);
    expect(till.counts[0]).toMatchObject({
      expectedMinor: 15_000,
      countedMinor: 14_950,
      reason: 'nobody knows',
      by: 'The owner',
    });
    expect([await balance('cash'), await balance('bank'), await balance('cashDifference')]).toEqual([
      5000, 9950, -9950,
    ]);
  });

  it('takes no count without a reason for its difference, of a till that moved, or with more banked than there is', async () => {
    expect(await count({ expectedMinor: 0, countedMinor: 1 })).toBe('CASH_NEEDS_REASON');
    expect(await count({ expectedMinor: 0, countedMinor: 0, bankedMinor: 5 })).toBe('BANKED_ABOVE_COUNTED');
    shop.write('billing.takeDeposit', { jobId: agreedJob(shop).jobId, amountMinor: 500, way: 'cash' });
    expect(await count({ expectedMinor: 0, countedMinor: 0 })).toBe('CASH_MOVED');
    expect(await count({ expectedMinor: 500, countedMinor: 500 })).toBe('accepted');
  });

  it('is counted the first time with its opening float and with what went to the bank before', async () => {
    const { jobId } = agreedJob(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 50_000, way: 'cash' });
    // By hand: 150.00 of change lay there before the 500.00 came, 400.00 went to the bank since; 249.50 lies there now.
    const opening = { floatMinor: 15_000, bankedMinor: 40_000 };
    const first = { expectedMinor: 50_000, countedMinor: 24_950, bankedMinor: 4950, opening };
    expect(await count(first)).toBe('CASH_NEEDS_REASON');
    expect(await count({ ...first, reason: 'a coin fell down' })).toBe('accepted');
    const till = await shop.read('billing.readTill', {});
    expect(till.expectedMinor).toBe(20_000);
    expect(till.counts).toMatchObject([
      { floatMinor: 15_000, expectedMinor: 65_000, countedMinor: 64_950, bankedMinor: 44_950 },
    ]);
    expect(await Promise.all(['cash', 'bank', 'openingFloat', 'cashDifference'].map(balance))).toEqual([
      20_000, 44_950, -15_000, 50,
    ]);
  });

  it('has one opening count: later ones begin with what the last one left', async () => {
    const opening = { floatMinor: 15_000, bankedMinor: 0 };
    expect(await count({ expectedMinor: 0, countedMinor: 15_000, opening })).toBe('accepted');
    expect(await count({ expectedMinor: 15_000, countedMinor: 30_000, opening })).toBe('TILL_OPENED');
    expect(await count({ expectedMinor: 15_000, countedMinor: 15_000 })).toBe('accepted');
    expect((await shop.read('billing.readTill', {})).counts.map((c) => c.floatMinor)).toEqual([0, 15_000]);
  });

  it('takes not more to the bank after the opening count than was counted, whatever went there before', async () => {
    const opening = { floatMinor: 0, bankedMinor: 40_000 };
    shop.write('billing.takeDeposit', { jobId: agreedJob(shop).jobId, amountMinor: 50_000, way: 'cash' });
    const first = { expectedMinor: 50_000, countedMinor: 10_000, bankedMinor: 10_001, opening };
    expect(await count(first)).toBe('BANKED_ABOVE_COUNTED');
    expect(await count({ ...first, bankedMinor: 10_000 })).toBe('accepted');
  });

  it('is never counted anew: counts are kept as they were', async () => {
    await count({ expectedMinor: 0, countedMinor: 0 });
    expect(() => shop.db.raw.exec('UPDATE cash_count SET counted_minor = 5')).toThrow('append-only');
    expect(() => shop.db.raw.exec('DELETE FROM cash_count')).toThrow('append-only');
  });

  it('after any counts and moves holds what the journal says is in cash', async () => {
    const move = fc.record({
      taken: fc.integer({ min: 1, max: 4000 }),
      off: fc.integer({ min: -50, max: 50 }),
      bank: fc.nat(3000),
    });
    const { jobId } = agreedJob(shop);
    await fc.assert(
      fc.asyncProperty(fc.array(move, { minLength: 1, maxLength: 3 }), async (moves) => {
        for (const { taken, off, bank } of moves) {
          const amountMinor = taken * 5;
          shop.write('billing.takeDeposit', { jobId, amountMinor, way: 'cash', aboveQuote: true });
          const { expectedMinor } = await shop.read('billing.readTill', {});
          const countedMinor = Math.max(0, expectedMinor + off);
          const bankedMinor = Math.min(bank, countedMinor);
          shop.write('billing.countCash', { expectedMinor, countedMinor, bankedMinor, reason: 'counted' });
        }
        expect((await shop.read('billing.readTill', {})).expectedMinor).toBe(await balance('cash'));
      }),
      { numRuns: 8 },
    );
  });
});
