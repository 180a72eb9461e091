import { describe, expect, it } from 'vitest';
import { drawFactor, pickItem, proposedAmount } from '#core/stock/rules/draws.ts';

describe('draws', () => {
  it('keeps the plan while nothing is known and moves with evidence', () => {
    expect(drawFactor({ n: 0, planned: 0, drawn: 0 })).toBe(1);
    // 5 imagined stages of 100 and 5 real ones: (500 + 700) / (500 + 500)
    expect(drawFactor({ n: 5, planned: 500, drawn: 700 })).toBeCloseTo(1.2, 12);
  });
  it('proposes whole pieces and whole base units', () => {
    expect(proposedAmount(3, 1.1, true)).toBe(4);
    expect(proposedAmount(3, 1, true)).toBe(3);
    expect(proposedAmount(15_001, 1.1, false)).toBe(16_501);
  });
  it('takes the preferred item that has enough, else the fullest, else the preferred', () => {
    const a = { itemId: 'a', preference: 0, onHand: 50 };
    const b = { itemId: 'b', preference: 1, onHand: 400 };
    expect(pickItem([b, a], 40)?.itemId).toBe('a');
    expect(pickItem([b, a], 100)?.itemId).toBe('b');
    expect(
      pickItem(
        [
          { ...b, onHand: -3 },
          { ...a, onHand: 0 },
        ],
        100,
      )?.itemId,
    ).toBe('a');
    expect(pickItem([], 1)).toBeNull();
  });
});
