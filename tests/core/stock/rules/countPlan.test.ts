import { describe, expect, it } from 'vitest';
import { pressing, turnOf, valueClasses } from '#core/stock/rules/countPlan.ts';

describe('which items are counted how often', () => {
  it('sorts them by what a year’s use is worth: up to 80 % A, up to 95 % B, the rest and the unused C', () => {
    // of 1000: 500, 250 (begins at 50 %), 120 (begins at 75 %), 80 (at 87 %), 50 (at 95 %)
    expect(valueClasses([80, 500, 0, 120, 50, 250])).toEqual(['B', 'A', 'C', 'A', 'C', 'A']);
    expect(valueClasses([0, -5])).toEqual(['C', 'C']);
  });
  it('has a turn every 30, 90 or 180 days, and sooner after two corrected draws', () => {
    expect(turnOf({ of: 'A', days: 29, corrections: 1 })).toBeNull();
    expect(turnOf({ of: 'A', days: 30, corrections: 0 })).toBe('cycle');
    expect(turnOf({ of: 'C', days: 179, corrections: 0 })).toBeNull();
    expect(turnOf({ of: 'C', days: 3, corrections: 2 })).toBe('corrected');
  });
  it('puts doubted ones first, then those that missed most of their turns', () => {
    const doubted = pressing({ of: 'C', days: 3, corrections: 2 });
    const late = pressing({ of: 'A', days: 60, corrections: 0 });
    expect(doubted).toBeGreaterThan(late);
    expect(late).toBeGreaterThan(pressing({ of: 'C', days: 200, corrections: 0 }));
  });
});
