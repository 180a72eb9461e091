import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { examine } from '#core/doctor/doctor.ts';
import type { InvoiceId } from '#core/shared/ids.ts';
import type { VoucherPurpose } from '#core/shared/settings/billing.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { vouchersOn } from '#core/views/voucherReports.ts';
import { addTestJob, agreedJob, billJob, bookingsOf, issueDraft, refusalOf } from '../../helpers/billing.ts';
import { pdfText } from '../../helpers/pdfText.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const at = (instant: string): void => shop.at(Date.parse(instant));

function sold(voucherPurpose: VoucherPurpose, more: Readonly<Record<string, unknown>> = {}) {
  const billing = { voucherPurpose, voucherDays: 30, voucherHoldDays: 0 };
  shop.db.raw.prepare('UPDATE shop SET settings = ?').run(JSON.stringify({ billing }));
  const { customerId } = addTestJob(shop, { name: 'Odo Lund' });
  return shop.write('billing.sellVoucher', {
    ...{ customerId, amountMinor: 11_900, way: 'card', forName: '', ...more },
  });
}

async function balance(account: string, toDay: LocalDay): Promise<number> {
  const file = await shop.read('billing.journalFile', { fromDay: '2026-01-01' as LocalDay, toDay });
  return bookingsOf(file.bytes).reduce(
    (sum, row) => sum + (row.account === account ? row.creditMinor - row.debitMinor : 0),
    0,
  );
}

describe('a voucher past its day', () => {
  it('is taken late where the owner says so: what was let go is held again, then used', async () => {
    const { voucherId, code } = sold('multi');
    at('2027-01-10T09:00:00Z');
    const invoiceId = await billJob(shop, agreedJob(shop).jobId);
    shop.write('billing.letVouchersGo', { voucherIds: [voucherId] });
    const use = (): Promise<string> =>
      refusalOf(shop, 'billing.useVoucher', { code, invoiceId, amountMinor: 11_900 });
    expect(await use()).toBe('VOUCHER_EXPIRED');
    // Held again alone makes it no younger.
    shop.write('billing.restoreVoucher', { voucherId });
    expect(await use()).toBe('VOUCHER_EXPIRED');
    shop.write('billing.letVouchersGo', { voucherIds: [voucherId] });
    const late = (untilDay: string): Promise<string> =>
      refusalOf(shop, 'billing.takeVoucherLate', { voucherId, untilDay });
    expect(await late('2027-01-09')).toBe('VOUCHER_LATE_DAY');
    shop.as('desk');
    expect(await late('2027-01-10')).toBe('NOT_ALLOWED');
    shop.as('owner');
    expect(await late('2027-01-10')).toBe('accepted');
    expect(await late('2027-01-10')).toBe('VOUCHER_LATE_DAY');
    expect(await use()).toBe('accepted');
    const day = '2027-01-10' as LocalDay;
    expect([await balance('vouchersHeld', day), await balance('vouchersLetGo', day)]).toEqual([0, 0]);
    const { entries, expiresDay } = await shop.read('billing.readVoucher', { voucherId });
    expect(entries.map((e) => e.kind)).toEqual(['sold', 'letGo', 'restored', 'letGo', 'restored', 'used']);
    expect(expiresDay).toBe(day);
    const { bytes } = await shop.read('billing.voucherFile', { voucherId });
    expect((await pdfText(bytes)).join(' ')).toContain('Good until Jan 10, 2027');
  });

  it('is let go with others or not at all, and one without a last day never', async () => {
    const [first, second] = [sold('multi'), sold('multi')];
    shop.db.raw
      .prepare(`UPDATE shop SET settings = '{"billing":{"voucherDays":0,"voucherHoldDays":0}}'`)
      .run();
    const { customerId } = addTestJob(shop);
    const endless = shop.write('billing.sellVoucher', {
      ...{ customerId, amountMinor: 100, way: 'card', forName: '' },
    });
    at('2027-01-10T09:00:00Z');
    const go = (...all: readonly { readonly voucherId: string }[]): Promise<string> =>
      refusalOf(shop, 'billing.letVouchersGo', { voucherIds: all.map((v) => v.voucherId) });
    expect(await go(first, endless)).toBe('VOUCHER_NO_LAST_DAY');
    expect((await shop.read('billing.readDesk', {})).vouchersOverMinor).toBe(23_800);
    expect(await go(first, first, second)).toBe('accepted');
    const desk = await shop.read('billing.readDesk', {});
    expect([desk.vouchersMinor, desk.vouchersOverMinor]).toEqual([100, 0]);
  });

  it('is guarded in the file itself: not let go on its last day, not held again beyond that, never shortened', () => {
    const { voucherId } = sold('multi');
    const entry = (kind: string, amount: number, day: string): void => {
      shop.db.raw
        .prepare(
          'INSERT INTO voucher_entry (voucher_id, kind, amount_minor, net_minor, at_ms, local_day) VALUES (?, ?, ?, 0, 0, ?)',
        )
        .run(voucherId, kind, amount, day);
    };
    const lateDay = (day: string | null): unknown =>
      shop.db.raw.prepare('UPDATE voucher SET late_day = ?').run(day);
    expect(() => entry('letGo', -100, '2026-12-25')).toThrow('let go after its last day');
    entry('letGo', -100, '2026-12-26');
    expect(() => entry('restored', 101, '2026-12-27')).toThrow('no more is held again');
    expect(() => lateDay('2026-12-25')).toThrow('never shorter');
    lateDay('2026-12-31');
    expect(() => lateDay(null)).toThrow('never shorter');
    expect(() => entry('letGo', -100, '2026-12-31')).toThrow('let go after its last day');
    expect(() => shop.db.raw.prepare("UPDATE voucher SET code = 'AAAAAAAAA'").run()).toThrow(
      'as it was sold',
    );
    shop.db.raw.exec('DROP TRIGGER voucher_entry_after_end; DROP TRIGGER voucher_entry_held_again');
    expect(examine(shop.db)).toEqual([]);
    entry('letGo', -50, '2026-12-01');
    expect(examine(shop.db)).toMatchObject([
      { check: 'voucher.letGo', values: { number: 1, day: '2026-12-01' } },
    ]);
    entry('used', -400, '2026-12-02');
    entry('restored', 250, '2026-12-27');
    const found = examine(shop.db).filter((f) => f.check === 'voucher.letGo');
    expect(found.map((f) => f.values['day'])).toEqual(['2026-12-01', 'none']);
  });
});

// A document is dated in the shop's zone (Europe/Berlin), and one after a clock that went back bears the last one's day.
describe('what a document says of a voucher is dated as the document', () => {
  it('at midnight', async () => {
    at('2026-11-25T22:59:59Z');
    const { code, voucherId } = sold('single');
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId: agreedJob(shop).jobId });
    shop.write('billing.useVoucher', { code, invoiceId, amountMinor: 11_900 });
    at('2026-11-25T23:00:00Z');
    await issueDraft(shop, invoiceId);
    const { soldDay } = await shop.read('billing.readVoucher', { voucherId });
    expect([soldDay, (await shop.read('billing.readInvoice', { invoiceId })).issuedDay]).toEqual([
      '2026-11-25',
      '2026-11-26',
    ]);
    const owed = (day: string): number[] => vouchersOn(shop.db, day as LocalDay).map((v) => v.owedMinor);
    for (const [day, held] of [
      ['2026-11-24', 0],
      ['2026-11-25', 10_000],
      ['2026-11-26', 0],
    ] as const) {
      expect(await balance('vouchersHeld', day as LocalDay)).toBe(held);
      expect(owed(day).reduce((sum, minor) => sum + minor, 0)).toBe(held);
    }
  });

  it('with a clock that went back: sold, used and taken back under the last document’s day in every list', async () => {
    at('2026-11-25T09:00:00Z');
    await billJob(shop, agreedJob(shop).jobId);
    at('2026-11-20T09:00:00Z');
    const last = { date: 'lastDay' } as const;
    const first = sold('single', last);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId: agreedJob(shop).jobId });
    shop.write('billing.useVoucher', { code: first.code, invoiceId, amountMinor: 5000 });
    const { revision } = await shop.read('billing.readInvoice', { invoiceId });
    shop.write('billing.issueInvoice', { invoiceId, revision, aheadOfWork: true, ...last });
    const sale = first.invoiceId as InvoiceId;
    shop.write('billing.creditInvoice', {
      ...{ invoiceId: sale, lines: [{ line: 0, amountMinor: 6900 }], reason: 'back', ...last },
    });
    const days = shop.db.raw.prepare('SELECT DISTINCT local_day FROM voucher_entry').pluck().all();
    expect(days).toEqual(['2026-11-25']);
    for (const day of ['2026-11-20', '2026-11-24'] as LocalDay[]) {
      const accounts = ['vouchersHeld', 'receivables', 'card', 'taxOwed'];
      expect(await Promise.all(accounts.map((a) => balance(a, day)))).toEqual([0, 0, 0, 0]);
      expect(vouchersOn(shop.db, day)).toEqual([]);
      for (const basis of ['invoice', 'payment'] as const) {
        const period = { fromDay: '2026-01-01' as LocalDay, toDay: day, basis };
        expect((await shop.read('billing.readTaxReport', period)).taxMinor).toBe(0);
      }
    }
    expect(await balance('vouchersHeld', '2026-11-25' as LocalDay)).toBe(0);
    expect(examine(shop.db).filter((f) => f.check.startsWith('voucher'))).toEqual([]);
  });
});

describe('whoever buys a voucher', () => {
  it('need not be named where it is taxed when used: it is on receipt, sheet and lists without a name', async () => {
    const { voucherId, number, code, receipt } = sold('multi', { customerId: null });
    const pdf = async (file: { readonly bytes: Uint8Array }): Promise<string> =>
      (await pdfText(file.bytes)).join(' ');
    expect(await pdf(await shop.read('billing.receiptFile', { receipt }))).not.toContain('Received from');
    expect(await pdf(await shop.read('billing.voucherFile', { voucherId }))).toContain('Number 1');
    const { rows } = await shop.read('billing.listVouchers', {});
    expect(rows).toMatchObject([{ customerId: null, customer: '', leftMinor: 11_900 }]);
    const invoiceId = await billJob(shop, agreedJob(shop).jobId);
    shop.write('billing.useVoucher', { code, invoiceId, amountMinor: 5000 });
    const paid = (await shop.read('billing.readInvoice', { invoiceId })).payments;
    expect(paid).toMatchObject([{ kind: 'voucher', amountMinor: 5000, customer: '' }]);
    shop.write('billing.payVoucherBack', { number, amountMinor: 6900, way: 'cash' });
    expect((await shop.read('billing.readDesk', {})).paymentsToday).toHaveLength(2);
    expect(await balance('vouchersHeld', '2026-11-25' as LocalDay)).toBe(0);
    expect(examine(shop.db)).toEqual([]);
  });

  it('is named where it is taxed when sold, on its invoice', async () => {
    sold('single');
    const sale = { customerId: null, amountMinor: 5000, way: 'card', forName: '' };
    expect(await refusalOf(shop, 'billing.sellVoucher', sale)).toBe('VOUCHER_NEEDS_BUYER');
    expect((await shop.read('billing.listVouchers', {})).rows).toHaveLength(1);
  });
});

it('what is left of a voucher goes back in cash as coins make it, and nothing stays held', async () => {
  const { number, code, voucherId } = sold('multi');
  shop.db.raw.prepare(`UPDATE shop SET settings = '{"billing":{"cashStepMinor":5}}'`).run();
  const invoiceId = await billJob(shop, agreedJob(shop).jobId);
  shop.write('billing.useVoucher', { code, invoiceId, amountMinor: 11_563 });
  // 3.37 in coins of 0.05 is 3.35: the 0.02 are rounding
  expect(await shop.read('billing.readVoucher', { voucherId })).toMatchObject({
    ...{ leftMinor: 337, leftCashMinor: 335 },
  });
  const back = { number, way: 'cash' } as const;
  expect(await refusalOf(shop, 'billing.payVoucherBack', { ...back, amountMinor: 337 })).toBe(
    'CASH_NOT_ROUND',
  );
  shop.write('billing.payVoucherBack', { ...back, amountMinor: 335 });
  const day = '2026-11-25' as LocalDay;
  expect([await balance('vouchersHeld', day), await balance('rounding', day)]).toEqual([0, 2]);
  expect(vouchersOn(shop.db, day)).toMatchObject([{ leftMinor: 0 }]);
  expect(examine(shop.db)).toEqual([]);
});
