import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { turnedTotals } from '#core/billing/rules/credit.ts';
import { labourTaxOf, withLabourTax } from '#core/billing/rules/labourTax.ts';
import { agreedLine } from '#core/billing/rules/quoteLines.ts';
import { splitBill } from '#core/billing/rules/split.ts';
import { netOfShare } from '#core/billing/rules/taxShares.ts';
import { sum, totalsOf } from '#core/billing/rules/totals.ts';
import { examine } from '#core/doctor/doctor.ts';
import type { Bill, LineKind, LineTax } from '#core/shared/bill.ts';
import { type TaxPart, wholeRatePpm } from '#core/shared/tax.ts';
import type { Minor } from '#core/shared/units.ts';
import { addTestJob, agreedJob, billJob, bookingsOf, issueDraft, refusalOf } from '../../helpers/billing.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

const DAY = '2026-11-25';
const PERIOD = { fromDay: DAY, toDay: DAY };
const part = (name: string, ratePpm: number, onTax = false): TaxPart => ({ name, ratePpm, onTax });

function taxOf(parts: readonly TaxPart[]): LineTax {
  const one = {
    code: 'standard',
    category: 'S',
    ratePpm: wholeRatePpm(parts),
    name: 'Sales tax',
    reason: '',
  };
  return { ...(one as LineTax), parts: [...parts] };
}

function billOf(amounts: readonly (readonly [number, LineTax])[], taxIncluded = false): Bill {
  const lines = amounts.map(([priceMinor, tax]) => ({
    ...({ what: 'goods', text: 'Goods', quantity: 1, unit: 'piece', per: 1, discountMinor: 0 } as const),
    ...{ priceMinor, tax },
  }));
  return { lines, extras: [], taxIncluded };
}

const rowsOf = (bill: Bill): readonly (readonly [string, number, number])[] =>
  totalsOf(bill).taxes.map((t) => [t.name, t.taxableMinor, t.taxMinor]);

const QUEBEC = taxOf([part('GST', 50_000), part('QST', 99_750)]);
const QUEBEC_ONCE = taxOf([part('GST', 50_000), part('QST', 95_000, true)]);
const NEW_YORK = taxOf([part('State', 40_000), part('City', 45_000), part('Transit district', 3750)]);
const EXEMPT: LineTax = { code: 'exempt', category: 'E', ratePpm: 0, name: 'Exempt', reason: 'labour' };

describe('several taxes on one sale', () => {
  it('are reckoned as Revenu Québec does: 100.00 bears 5.00 and 9.98', () => {
    // Revenu Québec, "Calculating the Taxes" (revenuquebec.ca): each on the selling price, half a cent counts as a cent,
    // and of several goods the taxes may be calculated on the total price.
    const bill = billOf([[10_000, QUEBEC]]);
    expect(rowsOf(bill)).toEqual([
      ['GST', 10_000, 500],
      ['QST', 10_000, 998],
    ]);
    expect([QUEBEC.ratePpm, totalsOf(bill).toPayMinor]).toEqual([149_750, 11_498]);
    expect(
      rowsOf(
        billOf([
          [5000, QUEBEC],
          [5000, QUEBEC],
        ]),
      ),
    ).toEqual(rowsOf(bill));
  });

  it('are reckoned tax on tax where the place has it so: 9.5 % of 105.00 is 9.98', () => {
    // The rule of Québec until 2012, from memory: QST 9.5 % on the price with GST, 9.975 % of the price in all.
    expect(rowsOf(billOf([[10_000, QUEBEC_ONCE]]))).toEqual([
      ['GST', 10_000, 500],
      ['QST', 10_500, 998],
    ]);
    expect(QUEBEC_ONCE.ratePpm).toBe(149_750);
    expect(totalsOf(billOf([[10_000, QUEBEC_ONCE]])).netMinor).toBe(10_000);
  });

  it('of New York City make 8.875 %: 40.00, 45.00 and 3.75 on 1,000.00', () => {
    // Rates of state, city and Metropolitan Commuter Transportation District as widely published; 8.875 % in all.
    expect(NEW_YORK.ratePpm).toBe(88_750);
    expect(rowsOf(billOf([[100_000, NEW_YORK]])).map((row) => row[2])).toEqual([4000, 4500, 375]);
  });

  it('that another sale on the document bears too are summed with it', () => {
    const stateOnly: LineTax = { code: 'reduced', category: 'S', ratePpm: 40_000, name: 'State', reason: '' };
    expect(
      rowsOf(
        billOf([
          [1010, NEW_YORK],
          [1015, stateOnly],
        ]),
      ),
    ).toEqual([
      ['State', 2025, 81],
      ['City', 1010, 45],
      ['Transit district', 1010, 4],
    ]);
  });

  it('sum to the document, mirror in a credit note, split to the cent, and keep the sum of prices with tax', () => {
    const parts = fc
      .array(fc.record({ ratePpm: fc.integer({ min: 1, max: 150_000 }), onTax: fc.boolean() }), {
        minLength: 2,
        maxLength: 5,
      })
      .map((all) => taxOf(all.map((p, i) => part(`Tax ${i}`, p.ratePpm, p.onTax))));
    const line = fc.tuple(fc.integer({ min: 0, max: 3_000_000 }), fc.oneof(parts, fc.constant(EXEMPT)));
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 5 }), fc.boolean(), (lines, taxIncluded) => {
        const bill = billOf(lines, taxIncluded);
        const totals = totalsOf(bill);
        expect(sum(totals.taxes.map((t) => t.taxMinor))).toBe(totals.taxMinor);
        expect(sum(totals.taxes.map(netOfShare))).toBe(totals.netMinor);
        expect(totals.netMinor + totals.taxMinor + totals.roundingMinor).toBe(totals.toPayMinor);
        if (taxIncluded) expect(totals.toPayMinor).toBe(sum(lines.map((l) => l[0])));
        const back = turnedTotals(totals);
        expect(sum(back.taxes.map(netOfShare)) + totals.netMinor).toBe(0);
        const asked = Math.floor(totals.toPayMinor / 3) as Minor;
        const two = splitBill(bill, totals, asked, { part: 'Part', rest: 'Rest' });
        expect(two.part.totals.toPayMinor + two.rest.totals.toPayMinor).toBe(totals.toPayMinor);
      }),
      { numRuns: 200 },
    );
  });
});

describe('a shop where several taxes are due', () => {
  let shop: TestShop;
  beforeEach(() => {
    shop = openTestShop();
    const billing = { pricesIncludeTax: false };
    shop.db.raw.prepare('UPDATE shop SET settings = ?').run(JSON.stringify({ billing }));
    shop.write('shop.setTax', { name: 'Sales tax', category: 'S', ratePpm: 0, parts: NEW_YORK.parts ?? [] });
  });
  afterEach(() => shop.close());

  it('bills each as a row, books all of them, reports each, and has no e-invoice of it', async () => {
    const { customerId } = addTestJob(shop);
    const lines = [{ text: 'Care set', priceMinor: 100_000 }];
    const { invoiceId } = shop.write('billing.draftOther', { customerId, lines });
    await issueDraft(shop, invoiceId);
    const report = await shop.read('billing.readTaxReport', PERIOD);
    expect(report.rows.map((r) => [r.name, r.ratePpm, r.taxableMinor, r.taxMinor])).toEqual([
      ['City', 45_000, 100_000, 4500],
      ['State', 40_000, 100_000, 4000],
      ['Transit district', 3750, 100_000, 375],
    ]);
    expect([report.taxableMinor, report.taxMinor]).toEqual([100_000, 8875]);
    const books: Record<string, number> = {};
    for (const { account, debitMinor, creditMinor } of bookingsOf(
      (await shop.read('billing.journalFile', PERIOD)).bytes,
    ))
      books[account] = (books[account] ?? 0) + debitMinor - creditMinor;
    expect(books).toEqual({ receivables: 108_875, revenue: -100_000, taxOwed: -8875 });
    expect(await refusalOf(shop, 'billing.ublFile', { invoiceId })).toBe('UBL_STACKED_TAX');
    shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'returned' });
    expect((await shop.read('billing.readTaxReport', PERIOD)).taxMinor).toBe(0);
    expect(examine(shop.db)).toEqual([]);
  });

  it('can leave labour untaxed: materials alone bear tax', async () => {
    const billing = { pricesIncludeTax: false, labourTaxed: false };
    shop.db.raw.prepare('UPDATE shop SET settings = ?').run(JSON.stringify({ billing }));
    const priced = { labour: 80_000, materials: 10_000, taxIncluded: false };
    expect(() => agreedJob(shop, priced)).toThrow('NO_TAX');
    shop.write('shop.setTax', {
      code: 'exempt',
      name: 'Exempt',
      category: 'E',
      ratePpm: 0,
      reason: 'repair labour',
    });
    const { jobId } = agreedJob(shop, priced);
    const { totals } = await shop.read('billing.readInvoice', { invoiceId: await billJob(shop, jobId) });
    expect(totals.taxes.map((t) => [t.name, t.taxableMinor, t.taxMinor])).toEqual([
      ['Exempt', 80_000, 0],
      ['State', 10_000, 400],
      ['City', 10_000, 450],
      ['Transit district', 10_000, 38],
    ]);
  });

  it('taxes a charge as the work it is for: beside a price for labour and goods together it bears tax', () => {
    const standard = taxOf([part('State', 40_000), part('City', 45_000)]);
    const lines = (work: LineKind) =>
      withLabourTax(
        [
          agreedLine(work, work, 0, 50_000 as Minor, standard),
          agreedLine('rush', 'Rush', 0, 5000 as Minor, standard),
        ],
        EXEMPT,
      );
    const codes = (work: LineKind) => lines(work).map((line) => line.tax.code);
    expect(codes('labour.cut')).toEqual(['exempt', 'exempt']);
    for (const work of ['panel', 'package'] as const) {
      expect(codes(work)).toEqual(['standard', 'standard']);
      expect(labourTaxOf({ lines: lines(work), extras: [], taxIncluded: false })).toBeNull();
    }
  });

  it('stand under their own names beside a tax of the same rate that stands alone, whichever comes first', () => {
    const alone: LineTax = { code: 'reduced', category: 'S', ratePpm: 50_000, name: 'Reduced', reason: '' };
    const both = [
      [10_000, QUEBEC],
      [2000, alone],
    ] as const;
    for (const amounts of [both, both.toReversed()])
      expect(rowsOf(billOf(amounts)).toSorted()).toEqual([
        ['GST', 10_000, 500],
        ['QST', 10_000, 998],
        ['Reduced', 2000, 100],
      ]);
  });

  it('refuses taxes that cannot be told apart or come to more than the sale', async () => {
    const set = (parts: readonly TaxPart[]): Promise<string> =>
      refusalOf(shop, 'shop.setTax', { name: 'Tax', category: 'S', ratePpm: 0, parts });
    expect(await set([part('County', 10_000), part('County', 10_000)])).toBe('TAX_PARTS');
    expect(await set([part('State', 900_000), part('County', 200_000)])).toBe('TAX_PARTS');
    expect(await set([part('State', 40_000)])).toBe('BAD_INPUT');
  });
});
