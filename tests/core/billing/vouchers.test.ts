import { afterEach, describe, expect, it } from 'vitest';
import { examine } from '#core/doctor/doctor.ts';
import type { InvoiceId, JobId } from '#core/shared/ids.ts';
import type { VoucherPurpose } from '#core/shared/settings/billing.ts';
import type { VoucherRow } from '#core/shared/views/vouchers.ts';
import { vouchersOn } from '#core/views/voucherReports.ts';
import { addTestJob, agreedJob, billJob, bookingsOf, issueDraft, refusalOf } from '../../helpers/billing.ts';
import { pdfText } from '../../helpers/pdfText.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

const DAY = '2026-11-25';
const PERIOD = { fromDay: DAY, toDay: DAY };
const DAY_MS = 86_400_000;
const shops: TestShop[] = [];
afterEach(() => {
  for (const shop of shops.splice(0)) shop.close();
});

function shopWith(voucherPurpose: VoucherPurpose, more: Readonly<Record<string, unknown>> = {}): TestShop {
  const shop = openTestShop();
  shops.push(shop);
  const billing = { voucherPurpose, ...more };
  shop.db.raw.prepare('UPDATE shop SET settings = ?').run(JSON.stringify({ billing }));
  return shop;
}

/** One voucher bought by somebody else than who uses it. */
function sold(
  shop: TestShop,
  amountMinor = 11_900,
): {
  readonly number: number;
  readonly code: string;
  readonly voucherId: string;
} {
  const { customerId } = addTestJob(shop, { name: 'Odo Lund' });
  return shop.write('billing.sellVoucher', { customerId, amountMinor, way: 'cash', forName: 'Marit' });
}

async function rowOf(shop: TestShop, number: number): Promise<VoucherRow> {
  const { rows } = await shop.read('billing.listVouchers', { search: String(number) });
  const row = rows.find((r) => r.number === number);
  if (!row) throw new Error('no such voucher');
  return row;
}

async function balances(shop: TestShop): Promise<Readonly<Record<string, number>>> {
  const found: Record<string, number> = {};
  for (const { account, debitMinor, creditMinor } of bookingsOf(
    (await shop.read('billing.journalFile', PERIOD)).bytes,
  ))
    found[account] = (found[account] ?? 0) + debitMinor - creditMinor;
  return found;
}

const taxOf = async (shop: TestShop): Promise<number> =>
  (await shop.read('billing.readTaxReport', PERIOD)).taxMinor;

function draftOf(shop: TestShop): { readonly jobId: JobId; readonly invoiceId: InvoiceId } {
  const { jobId } = agreedJob(shop);
  return { jobId, invoiceId: shop.write('billing.draftInvoice', { jobId }).invoiceId };
}

// 119.00 at 19 % is 100.00 and 19.00; the job of 903.90 is 759.58 and 144.32.
// Directive (EU) 2016/1065: a single-purpose voucher is taxed when it is sold (30b(1)), a multi-purpose one with what it
// is used for (30b(2)); either way once.
describe('a multi-purpose voucher', () => {
  it('is held untaxed when it is sold, and taxed with the work it pays for', async () => {
    const shop = shopWith('multi');
    const { code } = sold(shop);
    expect(await balances(shop)).toEqual({ cash: 11_900, vouchersHeld: -11_900 });
    expect(await taxOf(shop)).toBe(0);
    const invoiceId = await billJob(shop, agreedJob(shop).jobId);
    expect(shop.write('billing.useVoucher', { code, invoiceId, amountMinor: 5000 }).leftMinor).toBe(6900);
    expect((await shop.read('billing.readInvoice', { invoiceId })).owedMinor).toBe(90_390 - 5000);
    expect(await taxOf(shop)).toBe(14_432);
    const books = await balances(shop);
    expect([books['vouchersHeld'], books['receivables'], books['revenue']]).toEqual([-6900, 85_390, -75_958]);
  });

  it('gets back what it paid on a document that was credited, or is paid back in money', async () => {
    const shop = shopWith('multi');
    const { number, code } = sold(shop);
    const invoiceId = await billJob(shop, agreedJob(shop).jobId);
    shop.write('billing.useVoucher', { code, invoiceId, amountMinor: 11_900 });
    const back = { number, invoiceId, amountMinor: 11_900 };
    expect(await refusalOf(shop, 'billing.returnToVoucher', back)).toBe('REFUND_ABOVE_PAID');
    shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'car was sold' });
    expect(shop.write('billing.returnToVoucher', back).leftMinor).toBe(11_900);
    expect(await refusalOf(shop, 'billing.returnToVoucher', back)).toBe('REFUND_ABOVE_PAID');
    const paid = { number, amountMinor: 11_900, way: 'cash' } as const;
    shop.write('billing.payVoucherBack', paid);
    expect(await refusalOf(shop, 'billing.payVoucherBack', paid)).toBe('VOUCHER_SPENT');
    expect(Object.values(await balances(shop)).filter((v) => v !== 0)).toEqual([]);
  });
});

describe('two vouchers on one document', () => {
  it('get back each what it paid, not what the other did', async () => {
    const shop = shopWith('multi');
    const [first, second] = [sold(shop), sold(shop)];
    const invoiceId = await billJob(shop, agreedJob(shop).jobId);
    for (const { code } of [first, second])
      shop.write('billing.useVoucher', { code, invoiceId, amountMinor: 5000 });
    shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'car was sold' });
    const back = (amountMinor: number): Promise<string> =>
      refusalOf(shop, 'billing.returnToVoucher', { number: first.number, invoiceId, amountMinor });
    expect(await back(5001)).toBe('REFUND_ABOVE_PAID');
    expect(await back(5000)).toBe('accepted');
    expect((await shop.read('billing.readDesk', {})).vouchersMinor).toBe(11_900 + 6900);
  });
});

describe('a single-purpose voucher', () => {
  it('is taxed when it is sold, and not again when it is used', async () => {
    const shop = shopWith('single');
    const { number, code } = sold(shop);
    expect(await balances(shop)).toEqual({
      cash: 11_900,
      receivables: 0,
      revenue: 0,
      taxOwed: -1900,
      vouchersHeld: -10_000,
    });
    const { invoiceId } = draftOf(shop);
    shop.write('billing.useVoucher', { code, invoiceId, amountMinor: 11_900 });
    expect((await rowOf(shop, number)).leftMinor).toBe(11_900);
    const draft = await shop.read('billing.readInvoice', { invoiceId });
    expect([draft.totals.toPayMinor, draft.totals.netMinor, draft.totals.taxMinor]).toEqual([
      78_490, 65_958, 12_532,
    ]);
    await issueDraft(shop, invoiceId);
    expect((await rowOf(shop, number)).leftMinor).toBe(0);
    expect(await taxOf(shop)).toBe(14_432);
    const books = await balances(shop);
    expect([books['vouchersHeld'], books['revenue'], books['taxOwed']]).toEqual([0, -75_958, -14_432]);
  });

  it('comes back with the credit note of the document it came off, and its sale is credited only while it is unused', async () => {
    const shop = shopWith('single');
    const { number, code, voucherId } = sold(shop);
    const sale = (await shop.read('billing.readVoucher', { voucherId })).invoiceId as InvoiceId;
    const { invoiceId } = draftOf(shop);
    shop.write('billing.useVoucher', { code, invoiceId, amountMinor: 4000 });
    await issueDraft(shop, invoiceId);
    const credit = { lines: null, reason: 'by mistake' };
    expect(await refusalOf(shop, 'billing.creditInvoice', { invoiceId: sale, ...credit })).toBe(
      'VOUCHER_SPENT',
    );
    shop.write('billing.creditInvoice', { invoiceId, ...credit });
    expect((await rowOf(shop, number)).leftMinor).toBe(11_900);
    shop.write('billing.creditInvoice', { invoiceId: sale, ...credit });
    expect((await rowOf(shop, number)).leftMinor).toBe(0);
    expect(await taxOf(shop)).toBe(0);
    expect((await balances(shop))['vouchersHeld']).toBe(0);
  });

  it('comes off a draft alone, at most what that asks for, and is given back by no other way', async () => {
    const shop = shopWith('single');
    const { number, code } = sold(shop, 200_000);
    const { invoiceId } = draftOf(shop);
    const use = (amountMinor: number): Promise<string> =>
      refusalOf(shop, 'billing.useVoucher', { code, invoiceId, amountMinor });
    expect(await use(90_391)).toBe('MONEY_ABOVE_OWED');
    expect(await use(90_390)).toBe('accepted');
    shop.write('billing.leaveVoucher', { number, invoiceId });
    await issueDraft(shop, invoiceId);
    expect(await use(100)).toBe('VOUCHER_ON_DRAFT');
    const back = { number, amountMinor: 100, way: 'cash' };
    expect(await refusalOf(shop, 'billing.payVoucherBack', back)).toBe('VOUCHER_TAXED');
    expect((await rowOf(shop, number)).leftMinor).toBe(200_000);
  });

  it('spent on two drafts is taken by the first that is issued', async () => {
    const shop = shopWith('single');
    const { number, code } = sold(shop);
    const [first, second] = [draftOf(shop).invoiceId, draftOf(shop).invoiceId];
    for (const invoiceId of [first, second])
      shop.write('billing.useVoucher', { code, invoiceId, amountMinor: 11_900 });
    await issueDraft(shop, first);
    const { revision } = await shop.read('billing.readInvoice', { invoiceId: second });
    const issue = { invoiceId: second, revision, aheadOfWork: true };
    expect(await refusalOf(shop, 'billing.issueInvoice', issue)).toBe('VOUCHER_SPENT');
    shop.write('billing.leaveVoucher', { number, invoiceId: second });
    expect(await issueDraft(shop, second)).toBe(3);
  });

  it('takes nothing off what has another kind of tax', async () => {
    const shop = shopWith('single');
    shop.write('shop.setTax', {
      code: 'exempt',
      name: 'exempt',
      category: 'E',
      ratePpm: 0,
      reason: 'art. 1',
      fromDay: DAY,
    });
    const { code } = sold(shop);
    const { customerId } = addTestJob(shop);
    const lines = [{ text: 'Course', priceMinor: 20_000, tax: 'exempt' as const }];
    const { invoiceId } = shop.write('billing.draftOther', { customerId, lines });
    const use = { code, invoiceId, amountMinor: 5000 };
    expect(await refusalOf(shop, 'billing.useVoucher', use)).toBe('VOUCHER_OTHER_TAX');
    const standard = [{ text: 'Course', priceMinor: 20_000 }];
    const taxed = shop.write('billing.draftOther', { customerId, lines: standard });
    shop.write('billing.useVoucher', { ...use, invoiceId: taxed.invoiceId });
    // What the draft asks for can change since: it is looked at again when it is issued.
    const { revision } = await shop.read('billing.readInvoice', { invoiceId: taxed.invoiceId });
    const { bill } = await shop.read('billing.readInvoice', { invoiceId });
    const change = { invoiceId: taxed.invoiceId, revision, lines: [...bill.lines] };
    shop.write('billing.changeDraft', change);
    const issue = { invoiceId: taxed.invoiceId, revision: revision + 1 };
    expect(await refusalOf(shop, 'billing.issueInvoice', issue)).toBe('VOUCHER_OTHER_TAX');
  });
});

describe('a voucher', () => {
  it('is refused when it is spent, unknown or past its last day', async () => {
    const shop = shopWith('multi', { voucherDays: 30 });
    const { number, code } = sold(shop);
    const invoiceId = await billJob(shop, agreedJob(shop).jobId);
    const use = (amountMinor: number, of = code): Promise<string> =>
      refusalOf(shop, 'billing.useVoucher', { code: of, invoiceId, amountMinor });
    expect(await use(11_901)).toBe('VOUCHER_SPENT');
    expect(await use(100, 'K7M-4QX-2R9')).toBe('VOUCHER_CODE_TYPO');
    shop.at(TEST_NOW + 30 * DAY_MS);
    expect(await use(100)).toBe('accepted');
    shop.at(TEST_NOW + 31 * DAY_MS);
    expect(await use(100)).toBe('VOUCHER_EXPIRED');
    expect((await rowOf(shop, number)).expired).toBe(true);
  });

  it('is on its sheet with number, worth, whom it is for and its last day', async () => {
    const shop = shopWith('multi');
    const { voucherId } = sold(shop);
    const { bytes } = await shop.read('billing.voucherFile', { voucherId });
    const text = (await pdfText(bytes)).join(' ');
    for (const said of ['Gift voucher', 'Number 1', 'for Marit', '119.00', 'Good until'])
      expect(text).toContain(said);
  });

  it('lies in the till and in the year’s folder, and on nobody’s account', async () => {
    const shop = shopWith('multi');
    sold(shop);
    expect((await shop.read('billing.readTill', {})).expectedMinor).toBe(11_900);
    expect(vouchersOn(shop.db, DAY as never)).toMatchObject([
      { number: 1, leftMinor: 11_900, owedMinor: 11_900 },
    ]);
    const customerId = shop.db.raw.prepare('SELECT customer_id FROM voucher').pluck().get() as never;
    expect((await shop.read('billing.readStatement', { customerId, ...PERIOD })).closingMinor).toBe(0);
  });

  it('is guarded in the file itself: not below nothing, not above its worth, not after its day, never changed', () => {
    const shop = shopWith('multi', { voucherDays: 1 });
    const { voucherId } = sold(shop);
    const entry = (kind: string, amount: number, day = DAY): void => {
      shop.db.raw
        .prepare(
          'INSERT INTO voucher_entry (voucher_id, kind, amount_minor, net_minor, at_ms, local_day) VALUES (?, ?, ?, 0, 0, ?)',
        )
        .run(voucherId, kind, amount, day);
    };
    expect(() => entry('used', -11_901)).toThrow('between nothing and what it was sold for');
    expect(() => entry('returned', 1)).toThrow('between nothing and what it was sold for');
    expect(() => entry('used', -1, '2026-11-27')).toThrow('after its last day');
    expect(() => shop.db.raw.prepare('UPDATE voucher_entry SET amount_minor = 1').run()).toThrow(
      'append-only',
    );
    expect(() => shop.db.raw.prepare('UPDATE voucher SET value_minor = 1').run()).toThrow('as it was sold');
    entry('used', -100);
    expect(examine(shop.db)).toMatchObject([
      { check: 'voucher.balance', values: { number: 1, kept: 11_800, held: 11_900 } },
    ]);
  });
});
