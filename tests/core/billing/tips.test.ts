import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { heldOn } from '#core/views/yearEnd.ts';
import { agreedJob, billJob, bookingsOf, refusalOf } from '../../helpers/billing.ts';
import { pdfText } from '../../helpers/pdfText.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

const DAY = '2026-11-25';
const PERIOD = { fromDay: DAY, toDay: DAY };
let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const tipsHeld = async (): Promise<number> => {
  const file = await shop.read('billing.journalFile', PERIOD);
  return bookingsOf(file.bytes)
    .filter((row) => row.account === 'tipsHeld')
    .reduce((sum, row) => sum + row.creditMinor - row.debitMinor, 0);
};

/** A job of 903.90 paid in cash with 12.00 on top for the technician, and one with 5.00 for everybody. */
async function tipped(): Promise<void> {
  for (const [tipPersonId, tip] of [[shop.people.technician, 1200] as const, [null, 500] as const]) {
    const { jobId } = agreedJob(shop);
    const invoiceIds = [await billJob(shop, jobId)];
    const amountMinor = 90_390 + tip;
    shop.write('billing.takePayment', { invoiceIds, amountMinor, way: 'cash', surplus: 'tip', tipPersonId });
  }
}

describe('tips', () => {
  it('are held for whom they were given until they are paid out: in the list, the till, the books and the year', async () => {
    await tipped();
    const personId = shop.people.technician;
    expect((await shop.read('billing.readDesk', {})).tips).toEqual([
      { personId, name: 'The technician', heldMinor: 1200, cashMinor: 1200 },
      { personId: null, name: '', heldMinor: 500, cashMinor: 500 },
    ]);
    expect(await tipsHeld()).toBe(1700);
    const before = (await shop.read('billing.readTill', {})).expectedMinor;
    shop.write('billing.payTips', { personId, amountMinor: 700, way: 'cash' });
    expect((await shop.read('billing.readTill', {})).expectedMinor).toBe(before - 700);
    expect((await shop.read('billing.readDesk', {})).tipsMinor).toBe(1000);
    expect(await tipsHeld()).toBe(1000);
    const year = heldOn(shop.db, DAY as never).filter((row) => row.kind === 'tip');
    expect(year.map((row) => [row.customer, row.heldMinor])).toEqual([
      ['The technician', 500],
      ['', 500],
    ]);
  });

  it('paid out are on a receipt to whom they went, not to the customer who gave them', async () => {
    await tipped();
    const personId = shop.people.technician;
    const { receipt } = shop.write('billing.payTips', { personId, amountMinor: 700, way: 'cash' });
    const text = (await pdfText((await shop.read('billing.receiptFile', { receipt })).bytes)).join(' ');
    expect(text).toContain('The technician');
    expect(text).not.toContain('Marit Vane');
    const shared = shop.write('billing.payTips', { personId: null, amountMinor: 500, way: 'cash' });
    const rows = (await shop.read('billing.readDesk', {})).paymentsToday;
    expect(rows.find((row) => row.receipt === receipt)?.customer).toBe('The technician');
    expect(rows.find((row) => row.receipt === shared.receipt)?.customer).toBe('');
  });

  it('are paid out to no more than was given to that person, and touch no customer’s account', async () => {
    await tipped();
    const pay = (personId: string | null, amountMinor: number): Promise<string> =>
      refusalOf(shop, 'billing.payTips', { personId, amountMinor, way: 'cash' });
    expect(await pay(shop.people.desk, 1)).toBe('REFUND_ABOVE_PAID');
    expect(await pay(shop.people.technician, 1201)).toBe('REFUND_ABOVE_PAID');
    expect(await pay(null, 500)).toBe('accepted');
    expect(await pay(null, 1)).toBe('REFUND_ABOVE_PAID');
    const ids = shop.db.raw.prepare('SELECT id FROM customer').pluck().all() as never[];
    for (const customerId of ids)
      expect((await shop.read('billing.readStatement', { customerId, ...PERIOD })).closingMinor).toBe(0);
    shop.as('desk');
    expect(await pay(shop.people.technician, 100)).toBe('NOT_ALLOWED');
  });

  // 5.00 and 3.33 in coins of 0.05 are 8.35: 0.02 more than was given, which the shop bears as rounding. 1.12 are 1.10.
  it.each([
    [333, 835, -2],
    [312, 810, 2],
  ])(
    'that coins cannot make are paid out as coins do, and nothing stays held (%i)',
    async (more, cashMinor, kept) => {
      shop.db.raw.prepare(`UPDATE shop SET settings = '{"billing":{"cashStepMinor":5}}'`).run();
      await tipped();
      const { jobId } = agreedJob(shop);
      const invoiceIds = [await billJob(shop, jobId)];
      const money = { invoiceIds, amountMinor: 90_390 + more, way: 'card', surplus: 'tip' } as const;
      shop.write('billing.takePayment', { ...money, tipPersonId: null });
      const shared = (await shop.read('billing.readDesk', {})).tips.at(-1);
      expect(shared).toMatchObject({ heldMinor: 500 + more, cashMinor });
      const pay = { personId: null, way: 'cash' } as const;
      expect(await refusalOf(shop, 'billing.payTips', { ...pay, amountMinor: 500 + more })).toBe(
        'CASH_NOT_ROUND',
      );
      const before = (await shop.read('billing.readTill', {})).expectedMinor;
      const { receipt } = shop.write('billing.payTips', { ...pay, amountMinor: cashMinor });
      expect((await shop.read('billing.readTill', {})).expectedMinor).toBe(before - cashMinor);
      expect((await shop.read('billing.readDesk', {})).tipsMinor).toBe(1200);
      expect(await tipsHeld()).toBe(1200);
      const books = bookingsOf((await shop.read('billing.journalFile', PERIOD)).bytes);
      const side = (account: string): number =>
        books.reduce((sum, b) => sum + (b.account === account ? b.creditMinor - b.debitMinor : 0), 0);
      expect(side('rounding')).toBe(kept);
      const text = (await pdfText((await shop.read('billing.receiptFile', { receipt })).bytes)).join(' ');
      expect(text).toContain(`Total −€${(cashMinor / 100).toFixed(2)}`);
    },
  );
});
