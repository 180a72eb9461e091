import { describe, expect, it } from 'vitest';
import { worldOf, YEAR } from '../../../helpers/stockWorld.ts';
import { HALF, ownRule, play } from '../../../helpers/stockYear.ts';

const ITEMS = 50;

/** Mean over the items of the share of what the second half of the year asked for that was there. */
function served(seed: number, level: number): number {
  const world = worldOf(seed, ITEMS);
  const shares = world.items.flatMap((_, i) => {
    const { asked, served: there } = play(world, i, ownRule(world, i, level), HALF, YEAR);
    return asked > 0 ? [there / asked] : [];
  });
  return shares.reduce((sum, s) => sum + s, 0) / shares.length;
}

describe('a year of stock, its second half held back', () => {
  it.each([1, 2, 3])('serves the share aimed at to a hundredth, seed %d', (seed) => {
    expect(Math.abs(served(seed, 0.995) - 0.995)).toBeLessThan(0.01);
  });
  it('serves a lower aim to two hundredths, and less the lower it is', () => {
    const [low, high] = [served(4, 0.98), served(4, 0.999)];
    expect(Math.abs(low - 0.98)).toBeLessThan(0.02);
    expect(low).toBeLessThan(high);
  });
});
