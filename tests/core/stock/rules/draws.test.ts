import { describe, expect, it } from 'vitest';
import { pickItem, proposedAmount } from '#core/stock/rules/draws.ts';

describe('draws', () => {
  it('proposes whole pieces and whole base units', () => {
    expect(proposedAmount(3, 1.1, true)).toBe(3);
    expect(proposedAmount(3, 1.2, true)).toBe(4);
    expect(proposedAmount(1, 0.2, true)).toBe(1);
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
