import { worldOf, YEAR } from './stockWorld.ts';
import { HALF, ownRule, play } from './stockYear.ts';

const ITEMS = 50;

/** Of 50 items, the mean share of what the second half of the year asked for that was there, and its cost. */
export function halfYear(
  seed: number,
  level: number,
): { readonly served: number; readonly costMinor: number } {
  const world = worldOf(seed, ITEMS);
  const years = world.items.map((_, i) => play(world, i, ownRule(world, i, level), HALF, YEAR));
  const shares = years.flatMap(({ asked, served }) => (asked > 0 ? [served / asked] : []));
  return {
    served: shares.reduce((sum, s) => sum + s, 0) / shares.length,
    costMinor: years.reduce((sum, y) => sum + y.costMinor, 0),
  };
}
