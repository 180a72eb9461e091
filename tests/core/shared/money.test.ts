import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { divideHalfAway, spread } from '#core/shared/money.ts';
import type { Minor } from '#core/shared/units.ts';

const amount = fc.integer({ min: -1_000_000_000_000, max: 1_000_000_000_000 });
const weights = fc.array(fc.integer({ min: 0, max: 1_000_000_000 }), { minLength: 1, maxLength: 30 });

describe('an amount spread over weights', () => {
  it('sums to the amount, each part within one of its exact share', () => {
    fc.assert(
      fc.property(amount, weights, (total, w) => {
        const parts = spread(total as Minor, w);
        expect(parts.reduce((a, b) => a + b, 0)).toBe(total);
        const sum = w.reduce((a, b) => a + b, 0);
        if (sum === 0) return;
        parts.forEach((part, i) => {
          const off = BigInt(part) * BigInt(sum) - BigInt(total) * BigInt(w[i] ?? 0);
          expect((off < 0n ? -off : off) < BigInt(sum)).toBe(true);
        });
      }),
    );
  });

  it('gives what is left over to the largest remainders, ties to the earlier part', () => {
    expect(spread(100 as Minor, [1, 1, 1])).toEqual([34, 33, 33]);
    expect(spread(-100 as Minor, [1, 1, 1])).toEqual([-33, -33, -34]);
    expect(spread(7 as Minor, [0, 0])).toEqual([7, 0]);
    expect(spread(7 as Minor, [])).toEqual([]);
  });

  it('stays exact where numbers with a floating point would not', () => {
    const parts = spread(999_999_999_999 as Minor, [999_999_937, 999_999_929, 1]);
    expect(parts.reduce((a, b) => a + b, 0)).toBe(999_999_999_999);
    expect(parts[2]).toBe(500);
  });
});

describe('rounding', () => {
  it('is half away from zero on both sides', () => {
    expect([5n, -5n, 4n, -4n].map((n) => divideHalfAway(n, 10n))).toEqual([1, -1, 0, 0]);
  });
});
