import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromShown, type ShownUnit, toShown } from '#core/shared/amounts.ts';
import { countDifference } from '#core/stock/rules/ledger.ts';

describe('the ledger', () => {
  it('counts against the book as it stood beside the shelf, so later draws stay', () => {
    // book 380 at the shelf, 370 found there: −10 whatever was drawn since
    expect(countDifference(370, 380)).toBe(-10);
  });
  it('reads back every amount it shows, in either system', () => {
    const unit = fc.constantFrom('ul', 'mg', 'mm', 'piece' as const);
    const style = fc.record({
      volume: fc.constantFrom('ml', 'floz' as const),
      length: fc.constantFrom('m', 'ft' as const),
    });
    fc.assert(
      fc.property(fc.integer({ min: -2e9, max: 2e9 }), unit, style, (amount, u, s) => {
        const shown = toShown(amount, u, s as { volume: 'ml' | 'floz'; length: 'm' | 'ft' });
        expect(fromShown(shown.value, shown.unit as ShownUnit)).toBe(amount === 0 ? 0 : amount);
      }),
    );
  });
});
