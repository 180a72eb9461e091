import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { turned, turnedTotals } from '#core/billing/rules/credit.ts';
import { sum, totalsOf } from '#core/billing/rules/totals.ts';
import type { Bill, BillLine, LineTax } from '#core/shared/bill.ts';

const VAT20: LineTax = { code: 'standard', category: 'S', ratePpm: 200_000, name: 'VAT', reason: '' };

function line(priceMinor: number, quantity = 1, tax: LineTax = VAT20): BillLine {
  return {
    what: 'goods',
    text: 'a thing',
    quantity,
    unit: 'piece',
    per: 1,
    priceMinor,
    discountMinor: 0,
    tax,
  };
}
function bill(taxIncluded: boolean, ...lines: readonly BillLine[]): Bill {
  return { lines, extras: [], taxIncluded };
}

const anyTax = fc.constantFrom<LineTax>(
  VAT20,
  { ...VAT20, ratePpm: 190_000 },
  { ...VAT20, code: 'reduced', ratePpm: 77_500 },
  { ...VAT20, code: 'reduced2', ratePpm: 88_750 },
  { ...VAT20, code: 'zero', category: 'Z', ratePpm: 0 },
  { ...VAT20, code: 'exempt', category: 'E', ratePpm: 0, reason: 'small business' },
);
const anyLine = fc.record({
  what: fc.constant('goods' as const),
  text: fc.constant('a thing'),
  quantity: fc.integer({ min: -400, max: 4000 }),
  unit: fc.constant('piece' as const),
  per: fc.constantFrom(1, 7, 60),
  priceMinor: fc.integer({ min: 0, max: 2_000_000 }),
  discountMinor: fc.integer({ min: 0, max: 500 }),
  tax: anyTax,
});
const anyBill = fc.record({
  lines: fc.array(anyLine, { minLength: 1, maxLength: 12 }),
  extras: fc.array(
    fc.record({
      text: fc.constant('extra'),
      amountMinor: fc.integer({ min: -9999, max: 9999 }),
      tax: anyTax,
    }),
    { maxLength: 3 },
  ),
  taxIncluded: fc.boolean(),
});

describe('figures of a document', () => {
  it('three at 9.99 with 20 % included ask for exactly 29.97', () => {
    const totals = totalsOf(bill(true, line(999, 3)));
    // 29.97 / 1.2 = 24.975: tax 4.995 → 5.00, net 24.97, tax of the net 4.99, so 0.01 is the rounding amount.
    expect(totals).toMatchObject({ netMinor: 2497, taxMinor: 499, roundingMinor: 1, toPayMinor: 2997 });
  });

  it('three lines of 9.99 share the net by largest remainder', () => {
    const totals = totalsOf(bill(true, line(999), line(999), line(999)));
    // 8.325 each, 24.97 in all: the first gets the spare cent.
    expect(totals.lineNetMinor).toEqual([833, 832, 832]);
    expect(totals.lineShownMinor).toEqual([999, 999, 999]);
  });

  it('rounds half a unit away from zero on either side of zero', () => {
    // 0.5 × 0.05 = 0.025 and −0.025 (by hand)
    const half = { ...line(5, 1), per: 2 };
    expect(totalsOf(bill(false, half)).netMinor).toBe(3);
    expect(totalsOf(bill(false, { ...half, quantity: -1 })).netMinor).toBe(-3);
    expect(totalsOf(bill(false, line(250, -1, { ...VAT20, ratePpm: 10_000 }))).taxMinor).toBe(-3);
  });

  it('taxes each rate by itself', () => {
    const reduced: LineTax = { ...VAT20, code: 'reduced', ratePpm: 77_500 };
    const totals = totalsOf(bill(false, line(10_000), line(10_000, 1, reduced)));
    expect(totals.taxes.map((t) => t.taxMinor)).toEqual([2000, 775]);
    expect(totals.toPayMinor).toBe(22_775);
  });

  it('a currency without decimals is computed in its whole units', () => {
    // 999 yen with 10 % included: 999 × 10 / 110 = 90.8 → 91
    const totals = totalsOf(bill(true, line(999, 1, { ...VAT20, ratePpm: 100_000 })));
    expect(totals).toMatchObject({ netMinor: 908, taxMinor: 91, roundingMinor: 0, toPayMinor: 999 });
  });

  it('a currency with three decimals is computed in its thousandths', () => {
    // 3 × 9.995 with 5 % included: 29.985 × 5 / 105 = 1.42786 → 1.428, and 28.557 × 5 % = 1.42785 → 1.428
    const totals = totalsOf(bill(true, line(9995, 3, { ...VAT20, ratePpm: 50_000 })));
    expect(totals).toMatchObject({ netMinor: 28_557, taxMinor: 1428, roundingMinor: 0, toPayMinor: 29_985 });
  });

  it('parts sum to the totals, whatever is on the document', () => {
    fc.assert(
      fc.property(anyBill, (b) => {
        const t = totalsOf(b);
        expect(sum(t.lineNetMinor)).toBe(t.linesMinor);
        expect(t.linesMinor - t.allowancesMinor + t.chargesMinor).toBe(t.netMinor);
        expect(sum(t.taxes.map((x) => x.taxableMinor))).toBe(t.netMinor);
        expect(sum(t.taxes.map((x) => x.taxMinor))).toBe(t.taxMinor);
        expect(t.netMinor + t.taxMinor).toBe(t.withTaxMinor);
        expect(t.withTaxMinor + t.roundingMinor).toBe(t.toPayMinor);
      }),
      { numRuns: 500 },
    );
  });

  it('with tax included, what is shown is what is paid and rounding is at most one unit a rate', () => {
    fc.assert(
      fc.property(anyBill, (b) => {
        const t = totalsOf({ ...b, taxIncluded: true });
        expect(t.toPayMinor).toBe(sum(t.lineShownMinor) + sum(b.extras.map((x) => x.amountMinor)));
        expect(Math.abs(t.roundingMinor)).toBeLessThanOrEqual(t.taxes.length);
      }),
      { numRuns: 500 },
    );
  });

  it('a credit for the whole leaves zero in every part, computed anew or turned', () => {
    fc.assert(
      fc.property(anyBill, (b) => {
        const t = totalsOf(b);
        // What was an allowance is, computed anew, a charge of the same size: only their difference is compared.
        const { allowancesMinor: a1, chargesMinor: c1, ...anew } = totalsOf(turned(b));
        const { allowancesMinor: a2, chargesMinor: c2, ...mirrored } = turnedTotals(t);
        expect(anew).toEqual(mirrored);
        expect(c1 - a1).toBe(c2 - a2);
        expect(t.toPayMinor + totalsOf(turned(b)).toPayMinor).toBe(0);
      }),
      { numRuns: 500 },
    );
  });
});
