import { describe, expect, it } from 'vitest';
import { worldOf, YEAR } from '../../../helpers/stockWorld.ts';
import { HALF, ownRule, play } from '../../../helpers/stockYear.ts';

const ITEMS = 50;
/** An aim so low that nothing is kept back for it. */
const NOTHING_KEPT = 0;

/** Mean over the items of the share of what the second half of the year asked for that was there. */
function served(seed: number, level: number): number {
  const world = worldOf(seed, ITEMS);
  const shares = world.items.flatMap((_, i) => {
    const { asked, served: there } = play(world, i, ownRule(world, i, level), HALF, YEAR);
    return asked > 0 ? [there / asked] : [];
  });
  return shares.reduce((sum, s) => sum + s, 0) / shares.length;
}

/**
 * In this invented shop most use is booked ahead and lots last weeks, so that 99.4 to 99.9 % are served with nothing kept
 * back: an aim of 98 % says nothing of the rule, and one of 99.5 % does so only in years in which that misses it. The
 * rule serves more than it aims at, never less; how far above depends on the lots, and is bound here, not claimed to be
 * the aim itself.
 */
describe('a year of stock, its second half held back', () => {
  it.each([1, 2, 3, 4])('serves an aim of 99.9 %%, which nothing kept back misses, seed %d', (seed) => {
    const there = served(seed, 0.999);
    expect(served(seed, NOTHING_KEPT)).toBeLessThan(0.999);
    expect(there).toBeGreaterThanOrEqual(0.999);
    // no hoard either: some of what is asked for is still short
    expect(there).toBeLessThan(0.99995);
  });
  it.each([1, 4])(
    'serves 99.5 %% where nothing kept back misses that, and less than for 99.9 %%, seed %d',
    (seed) => {
      const [bare, there, more] = [NOTHING_KEPT, 0.995, 0.999].map((level) => served(seed, level));
      expect(bare).toBeLessThan(0.995);
      expect(there).toBeGreaterThanOrEqual(0.995);
      expect(there).toBeLessThan(more ?? 0);
    },
  );
});
