import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readableUntil } from '../../renderer/features/bays/fit.ts';

describe('until where a stretch on the board can be read', () => {
  it('is its own end, or the begin of what is drawn over it', () => {
    const spans = [
      [0, 100],
      [40, 60],
      [100, 200],
    ] as const;
    expect(readableUntil(spans)).toEqual([40, 60, 200]);
  });

  it('is nothing where another begins with it and lies on top', () => {
    expect(
      readableUntil([
        [10, 50],
        [10, 30],
      ]),
    ).toEqual([10, 30]);
  });

  it('never lets two names stand in one place', () => {
    const span = fc
      .tuple(fc.integer({ min: 0, max: 500 }), fc.integer({ min: 1, max: 200 }))
      .map(([from, length]) => [from, from + length] as const);
    fc.assert(
      fc.property(fc.array(span, { maxLength: 12 }), (spans) => {
        const read = spans.map(([from], i) => [from, readableUntil(spans)[i] ?? from] as const);
        for (const [i, a] of read.entries())
          for (const b of read.slice(i + 1)) expect(a[1] <= b[0] || b[1] <= a[0] || a[0] === b[0]).toBe(true);
      }),
    );
  });
});
