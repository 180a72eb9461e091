import { describe, expect, it } from 'vitest';
import { lineAmount, totalsOf } from '#core/billing/rules/totals.ts';
import type { Bill, LineTax } from '#core/shared/bill.ts';
import { EXAMPLES, type Example } from './data/en16931Examples.ts';

function tax(category: LineTax['category'], ratePpm: number): LineTax {
  return { code: 'standard', category, ratePpm, name: 'VAT', reason: '' };
}

function billOf(example: Example): Bill {
  return {
    taxIncluded: false,
    lines: example.lines.map(([quantity, priceMinor, per, discountMinor, , category, rate]) => ({
      what: 'goods',
      text: 'goods',
      quantity,
      unit: 'piece',
      per,
      priceMinor,
      discountMinor,
      tax: tax(category, rate),
    })),
    extras: example.extras.map(([amountMinor, category, rate]) => ({
      text: 'extra',
      amountMinor,
      tax: tax(category, rate),
    })),
  };
}

describe('the official EN 16931 example documents, recomputed from their typed figures', () => {
  it.each(EXAMPLES)('$name: each line amount follows from quantity, price and base quantity', (example) => {
    expect(billOf(example).lines.map(lineAmount)).toEqual(example.lines.map((l) => l[4]));
  });

  it.each(EXAMPLES)('$name: totals and tax by rate are those of the document', (example) => {
    const totals = totalsOf(billOf(example));
    expect(totals.linesMinor).toBe(example.linesMinor);
    expect(totals.allowancesMinor).toBe(example.allowances);
    expect(totals.chargesMinor).toBe(example.charges);
    expect(totals.netMinor).toBe(example.net);
    expect(totals.taxMinor).toBe(example.tax);
    expect(totals.withTaxMinor).toBe(example.withTax);
    expect(totals.toPayMinor - example.prepaid).toBe(example.payable);
    expect(totals.taxes.map((t) => [t.taxableMinor, t.taxMinor])).toEqual(example.shares);
  });

  it('example 2 rounds 1460.50 × 25 % = 365.125 up to 365.13', () => {
    const example = EXAMPLES.find((e) => e.name === 'example2');
    expect(example && totalsOf(billOf(example)).taxes[0]?.taxMinor).toBe(36513);
  });
});
