import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { InvoiceId } from '#core/shared/ids.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { addTestJob, agreedJob, askPrepaymentInvoices, billJob, issueDraft } from '../../helpers/billing.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

// 19 % until the end of November, 21 % from the first of December. A job of 903.90 with tax is 759.58 and 144.32 at 19 %;
// at 21 % 903.90 × 21 / 121 = 156.88, so 747.02 before tax, and 21 % of that is 156.87.
const [NOVEMBER, DECEMBER, JANUARY] = ['2026-11', '2026-12', '2027-01'].map((month) => ({
  fromDay: `${month}-01` as LocalDay,
  toDay: `${month}-${month === '2026-11' ? '30' : '31'}` as LocalDay,
})) as [Period, Period, Period];
type Period = { readonly fromDay: LocalDay; readonly toDay: LocalDay };

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
  shop.db.raw
    .prepare(
      `INSERT INTO tax_rate (id, code, name, category, rate_ppm, reason, from_day, added_ms)
       VALUES ('x0000000000000000001', 'standard', 'VAT', 'S', 210000, '', '2026-12-01', 0)`,
    )
    .run();
});
afterEach(() => shop.close());

async function taxIn(
  period: Period,
  basis: 'invoice' | 'payment',
): Promise<Readonly<Record<string, number>>> {
  const { rows } = await shop.read('billing.readTaxReport', { ...period, basis });
  return Object.fromEntries(
    rows.filter((r) => r.taxMinor !== 0).map((r) => [r.ratePpm / 10_000, r.taxMinor]),
  );
}
const at = (day: string): void => shop.at(Date.parse(`${day}T09:00:00Z`));

/** All of a job paid in November at 19 %, by a prepayment invoice or a voucher that is taxed when sold; billed in December. */
async function covered(by: 'prepayment' | 'voucher'): Promise<InvoiceId> {
  const { jobId } = agreedJob(shop);
  if (by === 'prepayment') {
    askPrepaymentInvoices(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 90_390, way: 'card' });
    at('2026-12-02');
    return billJob(shop, jobId);
  }
  shop.db.raw.prepare(`UPDATE shop SET settings = '{"billing":{"voucherPurpose":"single"}}'`).run();
  const { customerId } = addTestJob(shop);
  const sale = { customerId, amountMinor: 90_390, way: 'card', forName: '' } as const;
  const { code } = shop.write('billing.sellVoucher', sale);
  at('2026-12-02');
  const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
  shop.write('billing.useVoucher', { code, invoiceId, amountMinor: 90_390 });
  await issueDraft(shop, invoiceId);
  return invoiceId;
}

describe.each(['prepayment', 'voucher'] as const)('work that a %s at an older rate covers whole', (by) => {
  it('owes the difference of the rates by payment too, when it is billed; a credit note takes that back', async () => {
    const invoiceId = await covered(by);
    expect((await shop.read('billing.readInvoice', { invoiceId })).totals.toPayMinor).toBe(0);
    for (const basis of ['invoice', 'payment'] as const) {
      expect(await taxIn(NOVEMBER, basis)).toEqual({ 19: 14_432 });
      expect(await taxIn(DECEMBER, basis)).toEqual({ 19: -14_432, 21: 15_687 });
    }
    at('2027-01-04');
    shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'by mistake', date: 'today' });
    for (const basis of ['invoice', 'payment'] as const)
      expect(await taxIn(JANUARY, basis)).toEqual({ 19: 14_432, 21: -15_687 });
    const all = { fromDay: NOVEMBER.fromDay, toDay: JANUARY.toDay };
    expect(await taxIn(all, 'payment')).toEqual({ 19: 14_432 });
  });
});
