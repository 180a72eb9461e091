import { describe, expect, it } from 'vitest';
import { worldOf, YEAR } from '../../../helpers/stockWorld.ts';
import { HALF, ownRule, play } from '../../../helpers/stockYear.ts';

const ITEMS = 50;

/** Mean over the items of the share of what the second half of the year asked for that was there, and its cost. */
function halfYear(seed: number, level: number): { readonly served: number; readonly costMinor: number } {
  const world = worldOf(seed, ITEMS);
  const years = world.items.map((_, i) => play(world, i, ownRule(world, i, level), HALF, YEAR));
  const shares = years.flatMap(({ asked, served }) => (asked > 0 ? [served / asked] : []));
  return {
    served: shares.reduce((sum, s) => sum + s, 0) / shares.length,
    costMinor: years.reduce((sum, y) => sum + y.costMinor, 0),
  };
}

/**
 * From the lowest to the highest share that a shop can aim at. Most use is booked ahead and lots last weeks: an order
 * that goes out only when nothing is left serves 95 %, one with nothing kept back 99.7 %.
 */
describe('a year of stock, its second half held back', () => {
  it('serves what is aimed at within two percent, and more of it for more money', () => {
    const aims = [0.98, 0.995, 0.999];
    const halves = aims.map((aim) => halfYear(1, aim));
    halves.forEach(({ served }, k) => {
      expect(Math.abs(served - (aims[k] ?? 0))).toBeLessThan(0.02);
    });
    for (let k = 1; k < halves.length; k += 1) {
      expect(halves[k]?.served).toBeGreaterThan(halves[k - 1]?.served ?? 1);
      expect(halves[k]?.costMinor).toBeGreaterThan(halves[k - 1]?.costMinor ?? 0);
    }
    // the ends are not just some share near all: what is short at 98 % is many times what is short at 99.9 %
    expect(1 - (halves[0]?.served ?? 1)).toBeGreaterThan(0.0085);
    expect(1 - (halves[2]?.served ?? 0)).toBeLessThan(0.0015);
  });
  it('lets no shelf stay empty however low the aim: an order goes out once nothing is left', () => {
    expect(halfYear(1, 0).served).toBeGreaterThan(0.93);
  });
});
