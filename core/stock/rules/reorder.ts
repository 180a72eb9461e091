import { normalCdf } from '../../shared/statistics.ts';
import { normalLoss, zOf } from './normal.ts';

/**
 * Spread of the use during a lead time when both vary: √(L·σ_d² + d²·σ_L²). `useVariance` is L·σ_d², the sum of the
 * days' own variances, which need not be alike; `perDay` the mean use of a day; `sdLeadDays` how the lead time strays.
 * @source Silver, Pyke & Peterson, Inventory Management and Production Planning and Scheduling; Snyder & Shen
 */
export function leadSpread(useVariance: number, perDay: number, sdLeadDays: number): number {
  return Math.sqrt(useVariance + perDay ** 2 * sdLeadDays ** 2);
}

/** Stock kept against that spread at a chance `level` of not running out while an order is under way. */
export function safetyStock(spread: number, level: number): number {
  return zOf(level) * spread;
}

/**
 * The chance of not running out during a wait at which the share `served` of all that is asked for is there: what a
 * wait leaves short on average, spread times the normal loss, is that share's rest of one lot. Below one half where
 * the lot is so large that it may leave more short than nothing kept back does. Nothing strays: one half.
 * @source fill rate with a fixed lot, Silver, Pyke & Peterson; Snyder & Shen, type 2 service (both from memory)
 * @example chanceFor(0.99, 1000, 100) //=> 0.816…: 10 short of 1000 is 0.1 spreads, the loss at z 0.9
 */
export function chanceFor(served: number, lot: number, spread: number): number {
  if (spread <= 0) return 0.5;
  const short = ((1 - served) * lot) / spread;
  let [low, high] = [-8, 8];
  for (let round = 0; round < 50; round += 1) {
    const z = (low + high) / 2;
    if (normalLoss(z) > short) low = z;
    else high = z;
  }
  return normalCdf(high);
}

/** On hand plus on order less reserved: what reordering looks at, never on hand alone. */
export function inventoryPosition(onHand: number, onOrder: number, reserved: number): number {
  return onHand + onOrder - reserved;
}

/** What deciding today needs, index 0 = today. */
export type OrderQuestion = {
  /** Expected stock at the end of each day without a new order, all that is on order counted as there already. */
  readonly level: ArrayLike<number>;
  /** Index of the day an order placed on the next ordering day arrives. */
  readonly arrivesNext: number;
  readonly safety: number;
};
export type OrderAnswer = {
  readonly order: boolean;
  /** Index of the first day on which that stock falls below the safety stock; null = never in sight. */
  readonly below: number | null;
};

/** Base units by which stock may lie below what is kept back and still count as enough: sums of fractions stray. */
export const HAIR = 0.01;

/**
 * Order today if waiting for the next ordering day would let expected stock fall below the safety stock before
 * that later order was there; its own day counts as one without it, since it may come after work has begun. With one
 * ordering day after another this is "position below reorder point"; with closed days it looks further ahead by
 * itself. What is on order counts from today on, as in every rule on the
 * position: that it comes after the shelf is empty is a reason to chase it, no second order would come sooner. A
 * supplier who is shut today takes the order up on the first open day, so that it is asked for on shut days too:
 * silence there would say that there is time.
 */
export function orderToday(q: OrderQuestion): OrderAnswer {
  let below: number | null = null;
  for (let k = 0; k < q.level.length; k += 1) {
    if ((q.level[k] ?? 0) < q.safety - HAIR) {
      below = k;
      break;
    }
  }
  return { order: below !== null && below <= q.arrivesNext, below };
}
