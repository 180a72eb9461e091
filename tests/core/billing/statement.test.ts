import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { CustomerId } from '#core/shared/ids.ts';
import { addTestJob, agreedJob, billJob, refusalOf } from '../../helpers/billing.ts';
import { collisionsOf, pdfText } from '../../helpers/pdfText.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

const DAY = { fromDay: '2026-11-25', toDay: '2026-11-25' };
let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
  shop.db.raw.prepare("UPDATE shop SET locale = 'en-GB'").run();
});
afterEach(() => shop.close());

describe('a statement of account', () => {
  it('runs from the balance before to the balance after, entry by entry', async () => {
    const { jobId, customerId } = agreedJob(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 10_000, way: 'card' });
    const invoiceId = await billJob(shop, jobId);
    shop.write('billing.takePayment', {
      invoiceIds: [invoiceId],
      amountMinor: 85_390,
      way: 'card',
      surplus: 'tip',
    });
    shop.write('billing.creditInvoice', {
      invoiceId,
      lines: [{ line: 0, amountMinor: 1000 }],
      reason: 'one panel',
    });
    const account = await shop.read('billing.readStatement', { customerId, ...DAY });
    // By hand: 100.00 held, 903.90 asked, 803.90 paid (50.00 above it is a tip), 10.00 credited.
    expect(account.entries.map((e) => [e.what, e.number, e.amountMinor, e.balanceMinor])).toEqual([
      ['credit', 2, -1000, -1000],
      ['invoice', 1, 90_390, 89_390],
      ['receipt', 1, -10_000, 79_390],
      ['receipt', 2, -80_390, -1000],
    ]);
    expect([account.openingMinor, account.closingMinor]).toEqual([0, -1000]);
    const later = { fromDay: '2026-11-26', toDay: '2026-12-31' };
    const next = await shop.read('billing.readStatement', { customerId, ...later });
    expect([next.openingMinor, next.entries, next.closingMinor]).toEqual([-1000, [], -1000]);
  });

  it('leaves out what only changed its name, and shows held money laid on another’s document to both', async () => {
    const { jobId, customerId } = agreedJob(shop);
    const payerId = addTestJob(shop, { name: 'Ostgate Carriers' }).customerId;
    shop.write('billing.takeDeposit', { jobId, amountMinor: 10_000, way: 'card' });
    shop.db.raw.prepare('UPDATE job SET payer_id = ? WHERE id = ?').run(payerId, jobId);
    const invoiceId = await billJob(shop, jobId);
    const closing = async (id: CustomerId): Promise<number> =>
      (await shop.read('billing.readStatement', { customerId: id, ...DAY })).closingMinor;
    expect([await closing(customerId), await closing(payerId)]).toEqual([0, 80_390]);
    shop.write('billing.takePayment', { invoiceIds: [invoiceId], amountMinor: 80_390, way: 'card' });
    shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'not done' });
    shop.write('billing.keepAsCredit', { invoiceId, amountMinor: 90_390 });
    const account = await shop.read('billing.readStatement', { customerId: payerId, ...DAY });
    expect(account.closingMinor).toBe(-90_390);
    expect(account.entries.map((e) => e.what).sort()).toEqual(['credit', 'invoice', 'receipt', 'use']);
  });

  it('is the same on paper, of which nothing is drawn over anything', async () => {
    const { jobId, customerId } = agreedJob(shop);
    await billJob(shop, jobId);
    const file = await shop.read('billing.statementFile', { customerId, ...DAY });
    const text = (await pdfText(file.bytes)).join(' ');
    for (const part of [
      'Statement of account',
      'Marit Vane',
      'Balance before',
      'Invoice 1',
      '903.90',
      '€903.90',
    ])
      expect(text).toContain(part);
    expect(await collisionsOf(file.bytes)).toEqual([]);
  });

  it('of nobody, or of a period that ends before it begins, is refused', async () => {
    const { customerId } = addTestJob(shop);
    const back = { customerId, fromDay: '2026-12-01', toDay: '2026-11-01' };
    expect(await refusalOf(shop, 'billing.readStatement', back)).toBe('PERIOD_REVERSED');
    const nobody = { ...DAY, customerId: 'x'.repeat(20) };
    expect(await refusalOf(shop, 'billing.statementFile', nobody)).toBe('NOT_FOUND');
  });
});

describe('tips', () => {
  it('are summed by person, shared ones last, and are no revenue', async () => {
    const tip = async (amountMinor: number, tipPersonId: string | null): Promise<void> => {
      const invoiceId = await billJob(shop, agreedJob(shop).jobId);
      const paid = {
        invoiceIds: [invoiceId],
        amountMinor: 90_390 + amountMinor,
        way: 'cash',
        surplus: 'tip',
      } as const;
      shop.write('billing.takePayment', { ...paid, invoiceIds: [invoiceId], tipPersonId });
    };
    await tip(500, null);
    await tip(700, shop.people.technician);
    await tip(300, shop.people.technician);
    const report = await shop.read('billing.readTips', DAY);
    expect(report.rows.map((r) => [r.personId, r.tips, r.amountMinor])).toEqual([
      [shop.people.technician, 2, 1000],
      [null, 1, 500],
    ]);
    expect(report.amountMinor).toBe(1500);
    expect(
      (await shop.read('billing.readTips', { fromDay: '2026-11-26', toDay: '2026-11-26' })).rows,
    ).toEqual([]);
    const [journal] = [await shop.read('billing.readTaxReport', DAY)];
    expect(journal.taxableMinor + journal.taxMinor).toBe(3 * 90_390);
  });
});
