import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { examine } from '#core/doctor/doctor.ts';
import type { CustomerId } from '#core/shared/ids.ts';
import type { VoucherPurpose } from '#core/shared/settings/billing.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { vouchersOn } from '#core/views/voucherReports.ts';
import { heldOn } from '#core/views/yearEnd.ts';
import { addTestJob, agreedJob, bookingsOf } from '../../helpers/billing.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

const FIRST = '2026-11-25' as LocalDay;
const LAST = '2030-12-31' as LocalDay;
const DAY_MS = 86_400_000;
const total = <T>(rows: readonly T[], of: (row: T) => number): number =>
  rows.reduce((sum, row) => sum + of(row), 0) || 0;

const step = fc.record({
  act: fc.constantFrom(
    ...['use', 'use', 'issue', 'credit', 'creditPart', 'return', 'payBack', 'payAllBack', 'leave'],
    ...['wait', 'wait', 'wait', 'letGo', 'letGo', 'letGo', 'restore', 'takeLate'],
  ),
  voucher: fc.nat(2),
  job: fc.nat(2),
  amountMinor: fc.integer({ min: 1, max: 15_000 }),
  days: fc.integer({ min: 1, max: 60 }),
});
/** Each time begins with a voucher used in part: one that is taxed when it is used takes the second, the other the first. */
const BEGUN: readonly Step[] = [
  { act: 'use', job: 0 },
  { act: 'issue', job: 0 },
  { act: 'use', job: 0 },
].map((s) => ({ ...s, voucher: 0, amountMinor: 4111, days: 1 }));
/** And ends with what is left of one let go and held again. */
const ENDED: readonly Step[] = ['wait', 'wait', 'letGo', 'restore'].map((act) => ({
  ...{ act, voucher: 2, job: 0, amountMinor: 1, days: 60 },
}));
type Step = {
  readonly act: string;
  readonly voucher: number;
  readonly job: number;
  readonly amountMinor: number;
  readonly days: number;
};

type World = {
  readonly shop: TestShop;
  readonly buyer: CustomerId;
  readonly vouchers: readonly {
    readonly number: number;
    readonly code: string;
    readonly voucherId: string;
  }[];
  readonly jobs: readonly { readonly customerId: CustomerId; readonly invoiceId: string }[];
};

function openWorld(purpose: VoucherPurpose): World {
  const shop = openTestShop();
  const billing = { voucherPurpose: purpose, voucherDays: 30, voucherHoldDays: 20, cashStepMinor: 5 };
  shop.db.raw.prepare('UPDATE shop SET settings = ?').run(JSON.stringify({ billing }));
  const { customerId: buyer } = addTestJob(shop, { name: 'Odo Lund' });
  const sell = (amountMinor: number) =>
    shop.write('billing.sellVoucher', { customerId: buyer, amountMinor, way: 'card', forName: '' });
  const jobs = [1, 2, 3].map(() => {
    const { jobId, customerId } = agreedJob(shop);
    return { customerId, invoiceId: shop.write('billing.draftInvoice', { jobId }).invoiceId };
  });
  return { shop, buyer, jobs, vouchers: [sell(11_900), sell(3333), sell(40_007)] };
}

/** One step as the shop might take it; many are refused, and change nothing then. */
async function take({ shop, vouchers, jobs }: World, s: Step): Promise<void> {
  const { number = 0, code = '', voucherId = '' } = vouchers[s.voucher] ?? {};
  const { invoiceId = '' } = jobs[s.job] ?? {};
  const { amountMinor } = s;
  const { leftCashMinor: inCoins } = await shop.read('billing.readVoucher', {
    voucherId: voucherId as never,
  });
  const { revision } = await shop.read('billing.readInvoice', { invoiceId: invoiceId as never });
  const untilDay = new Date(shop.now() + s.days * DAY_MS).toISOString().slice(0, 10);
  const credit = { invoiceId, date: 'today', reason: 'x' };
  const acts: Readonly<Record<string, readonly [string, unknown]>> = {
    use: ['billing.useVoucher', { code, invoiceId, amountMinor }],
    issue: ['billing.issueInvoice', { invoiceId, revision, aheadOfWork: true, date: 'today' }],
    credit: ['billing.creditInvoice', { ...credit, lines: null }],
    creditPart: ['billing.creditInvoice', { ...credit, lines: [{ line: 0, amountMinor: 900 }] }],
    return: ['billing.returnToVoucher', { number, invoiceId, amountMinor }],
    payBack: ['billing.payVoucherBack', { number, amountMinor, way: 'card' }],
    payAllBack: ['billing.payVoucherBack', { number, amountMinor: inCoins, way: 'cash' }],
    leave: ['billing.leaveVoucher', { number, invoiceId }],
    letGo: ['billing.letVouchersGo', { voucherIds: [voucherId] }],
    restore: ['billing.restoreVoucher', { voucherId }],
    takeLate: ['billing.takeVoucherLate', { voucherId, untilDay }],
  };
  const act = acts[s.act];
  if (!act) return shop.at(shop.now() + s.days * DAY_MS);
  const reply = await shop.call(...act);
  if (!reply.ok) expect(reply.error.code, JSON.stringify(reply.error)).not.toBe('INTERNAL');
}

async function balancesOn(shop: TestShop, toDay: LocalDay): Promise<(account: string) => number> {
  const file = await shop.read('billing.journalFile', { fromDay: FIRST, toDay });
  const rows = bookingsOf(file.bytes);
  expect(total(rows, (r) => r.debitMinor - r.creditMinor)).toBe(0);
  return (account) =>
    total(
      rows.filter((r) => r.account === account),
      (r) => r.creditMinor - r.debitMinor,
    );
}

/** What the journal, the lists of vouchers and of held money, and the tax report say of the time up to a day. */
async function expectBooksOn(shop: TestShop, day: LocalDay): Promise<void> {
  const books = await balancesOn(shop, day);
  const stands = vouchersOn(shop.db, day);
  expect(books('vouchersHeld')).toBe(total(stands, (v) => v.owedMinor));
  const multi = stands.filter((v) => v.purpose === 'multi');
  const held = heldOn(shop.db, day).filter((h) => h.kind === 'voucher');
  expect(total(held, (h) => h.heldMinor)).toBe(total(multi, (v) => v.leftMinor));
  for (const v of stands) expect(v.usedMinor + v.letGoMinor + v.leftMinor).toBe(v.valueMinor);
  const tax = await shop.read('billing.readTaxReport', { fromDay: FIRST, toDay: day });
  expect(books('taxOwed')).toBe(tax.taxMinor);
}

async function expectViewsAgree({ shop, buyer, jobs }: World): Promise<void> {
  const stands = vouchersOn(shop.db, LAST);
  const left = total(stands, (v) => v.leftMinor);
  const desk = await shop.read('billing.readDesk', {});
  const page = await shop.read('billing.listVouchers', {});
  const over = await shop.read('billing.listVouchers', { list: 'over' });
  expect([desk.vouchersMinor, page.heldMinor, total(page.rows, (r) => r.leftMinor)]).toEqual([
    left,
    left,
    left,
  ]);
  expect([desk.vouchersOverMinor, page.overMinor]).toEqual(
    Array(2).fill(total(over.rows, (r) => r.leftMinor)),
  );
  expect(over.rows.every((r) => r.expired && r.leftMinor > 0)).toBe(true);
  const letGo = page.rows.filter((r) => r.letGoMinor > 0);
  expect(total(letGo, (r) => r.letGoMinor)).toBe(total(stands, (v) => v.letGoMinor));
  for (const { id } of page.rows) {
    const { entries, leftMinor, valueMinor } = await shop.read('billing.readVoucher', { voucherId: id });
    expect(total(entries, (e) => e.amountMinor)).toBe(leftMinor);
    expect(leftMinor >= 0 && leftMinor <= valueMinor).toBe(true);
  }
  const period = { fromDay: FIRST, toDay: LAST };
  expect((await shop.read('billing.readStatement', { customerId: buyer, ...period })).closingMinor).toBe(0);
  const owed: number[] = [];
  for (const { customerId } of jobs)
    owed.push((await shop.read('billing.readStatement', { customerId, ...period })).closingMinor);
  expect(total(owed, (minor) => minor)).toBe(-(await balancesOn(shop, LAST))('receivables') || 0);
  expect(examine(shop.db)).toEqual([]);
}

const entriesOf = (shop: TestShop, kind: string): number =>
  shop.db.raw.prepare('SELECT count(*) FROM voucher_entry WHERE kind = ?').pluck().get(kind) as number;
const localDays = (shop: TestShop): LocalDay[] =>
  shop.db.raw.prepare('SELECT DISTINCT local_day FROM voucher_entry').pluck().all() as LocalDay[];

describe.each(['multi', 'single'] as const)('whatever becomes of %s-purpose vouchers', (purpose) => {
  it('desk, lists, journal, held money, statements and tax agree to the cent on every day', async () => {
    const seen = { used: 0, letGo: 0, restored: 0 };
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 20, maxLength: 30 }), async (steps) => {
        const world = openWorld(purpose);
        try {
          for (const s of [...BEGUN, ...steps, ...ENDED]) await take(world, s);
          for (const day of [...localDays(world.shop), LAST]) await expectBooksOn(world.shop, day);
          await expectViewsAgree(world);
          seen.used += entriesOf(world.shop, 'used');
          seen.letGo += entriesOf(world.shop, 'letGo');
          seen.restored += entriesOf(world.shop, 'restored');
        } finally {
          world.shop.close();
        }
      }),
      { numRuns: 3, seed: 4711, endOnFailure: true },
    );
    expect(
      Object.values(seen).every((times) => times > 0),
      JSON.stringify(seen),
    ).toBe(true);
  });
});

// 119.00 at 19 % is 100.00 and 19.00. What lapses is no supply: Directive (EU) 2016/1065 deals with issue, transfer and
// redemption, so no tax comes or goes when a rest is let go; the rest is national law.
describe.each([
  ['multi', 11_900, 0],
  ['single', 10_000, 1900],
] as const)('a %s-purpose voucher of 119.00 that nobody used', (purpose, incomeMinor, taxMinor) => {
  it('is income once its time is over, without tax, and held again by the opposite entry', async () => {
    const { shop, vouchers } = openWorld(purpose);
    const [{ voucherId = '' } = {}] = vouchers;
    const letGo = (): Promise<unknown> => shop.call('billing.letVouchersGo', { voucherIds: [voucherId] });
    // good until 25 December, its money held 20 days after that: let go from 15 January on
    for (const day of ['2026-11-25', '2026-12-26', '2027-01-14']) {
      shop.at(Date.parse(`${day}T09:00:00Z`));
      expect(await letGo(), day).toMatchObject({
        error: { code: 'VOUCHER_STILL_HELD', data: { fromDay: '2027-01-15' } },
      });
    }
    shop.at(Date.parse('2027-01-15T09:00:00Z'));
    shop.as('desk');
    expect(await letGo()).toMatchObject({ ok: false });
    shop.as('owner');
    expect(await letGo()).toMatchObject({ ok: true, value: { letGoMinor: 11_900 } });
    expect(await letGo()).toMatchObject({ error: { code: 'VOUCHER_EMPTY' } });
    const earlier = await balancesOn(shop, '2027-01-14' as LocalDay);
    const books = await balancesOn(shop, '2027-01-15' as LocalDay);
    expect(earlier('vouchersLetGo')).toBe(0);
    expect(earlier('vouchersHeld') - books('vouchersHeld')).toBe(incomeMinor);
    expect(books('vouchersLetGo')).toBe(incomeMinor);
    expect(books('taxOwed') === 0).toBe(taxMinor === 0);
    shop.at(Date.parse('2027-03-01T09:00:00Z'));
    expect(shop.write('billing.restoreVoucher', { voucherId: voucherId as never }).leftMinor).toBe(11_900);
    expect(await shop.call('billing.restoreVoucher', { voucherId })).toMatchObject({
      error: { code: 'VOUCHER_NOT_LET_GO' },
    });
    const later = await balancesOn(shop, LAST);
    expect([later('vouchersLetGo'), later('vouchersHeld')]).toEqual([0, earlier('vouchersHeld')]);
    expect(later('taxOwed')).toBe(earlier('taxOwed'));
    shop.close();
  });
});
