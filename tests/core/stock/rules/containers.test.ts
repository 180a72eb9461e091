import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LocalDay } from '#core/shared/units.ts';
import {
  confirmedRest,
  lotsLeft,
  restByLevel,
  restByWeight,
  restsNow,
  throwDay,
} from '#core/stock/rules/containers.ts';

describe('what is left in an opened container', () => {
  it('reads a level in eighths or per cent of what it holds when full', () => {
    expect(restByLevel(1_000_000, { level: 3, of: 8 })).toBe(375_000);
    expect(restByLevel(500_000, { level: 35, of: 100 })).toBe(175_000);
  });
  it('weighs it: gross less tare is mass, over the density it is volume', () => {
    // 640 g on the scales, 90 g the empty bottle, 1.1 g/ml: 550 g are 500 ml
    expect(restByWeight('ul', { grossMg: 640_000, tareMg: 90_000, gramsPerLitre: 1100 })).toBe(500_000);
    expect(restByWeight('mg', { grossMg: 290_000, tareMg: 90_000, gramsPerLitre: null })).toBe(200_000);
    expect(restByWeight('mg', { grossMg: 80_000, tareMg: 90_000, gramsPerLitre: null })).toBe(-10_000);
  });
  it('leaves the book alone where it lies within half a step of a level read by eye', () => {
    // an eighth of 1000 ml is 125: 3/8 is 375, good to 62.5 either side
    expect(confirmedRest(1_000_000, { level: 3, of: 8 }, 430_000)).toBe(430_000);
    expect(confirmedRest(1_000_000, { level: 3, of: 8 }, 450_000)).toBe(375_000);
    expect(confirmedRest(1_000_000, { level: 0, of: 8 }, 50_000)).toBe(0);
  });
  it('takes draws since the reading from the container opened first, and gives back what a correction brings', () => {
    const open = [
      { id: 'old', holds: 1000, rest: 100, asOfId: 5 },
      { id: 'new', holds: 1000, rest: 1000, asOfId: 8 },
    ];
    const lines = [
      { id: 4, qty: -500 },
      { id: 6, qty: -30 },
      { id: 9, qty: -200 },
    ];
    expect(restsNow(open, lines)).toEqual(
      new Map([
        ['old', 0],
        ['new', 870],
      ]),
    );
    expect(restsNow(open, [...lines, { id: 10, qty: 50 }])).toEqual(
      new Map([
        ['old', 50],
        ['new', 870],
      ]),
    );
  });
  it('never holds less than nothing or more than it held, whatever is drawn', () => {
    const line = fc.record({ id: fc.integer({ min: 1, max: 50 }), qty: fc.integer({ min: -900, max: 300 }) });
    const one = fc.record({
      holds: fc.constant(1000),
      rest: fc.integer({ min: 0, max: 1000 }),
      asOfId: fc.integer({ min: 0, max: 50 }),
    });
    fc.assert(
      fc.property(fc.array(one, { maxLength: 4 }), fc.array(line, { maxLength: 20 }), (some, lines) => {
        const open = some.map((c, i) => ({ id: String(i), ...c }));
        for (const rest of restsNow(open, lines).values()) {
          expect(rest).toBeGreaterThanOrEqual(0);
          expect(rest).toBeLessThanOrEqual(1000);
        }
      }),
    );
  });
  it('is to be thrown away the day after its last good one', () => {
    expect(throwDay('2026-11-01' as LocalDay, 30)).toBe('2026-12-02');
    expect(throwDay('2026-11-01' as LocalDay, null)).toBeNull();
  });
});

describe('what is left of each delivery', () => {
  it('is what came last, as far as it is still there', () => {
    expect(lotsLeft(700, [500, 400, 300])).toEqual([0, 400, 300]);
    expect(lotsLeft(900, [500, 400, 300])).toEqual([200, 400, 300]);
    expect(lotsLeft(-20, [500])).toEqual([0]);
    expect(lotsLeft(2000, [500])).toEqual([500]);
  });
});
