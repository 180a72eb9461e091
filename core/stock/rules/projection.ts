import { Z_80 } from './normal.ts';

/**
 * One item looked at day by day, index 0 = today. All in base units.
 * `usual` and `usualVar` are the part of the usual use that is not booked yet.
 */
export type Outlook = {
  readonly onHand: number;
  readonly booked: ArrayLike<number>;
  readonly usual: ArrayLike<number>;
  readonly usualVar: ArrayLike<number>;
  readonly arrivals: ArrayLike<number>;
};

/** A booked amount strays from its plan by about this share (standard deviation). Common practice, no source. */
export const BOOKED_SPREAD = 0.25;

export type Projected = {
  /** Expected stock at the end of each day; goes below 0 by what is lacking. */
  readonly mid: Float64Array;
  /** Standard deviation of that stock. */
  readonly sd: Float64Array;
  /** First day the expected stock is used up by a use (≤ 0); null within the horizon. */
  readonly runOut: number | null;
};

/**
 * Stock day by day: on hand, less what booked jobs draw on their drop-off day, less the usual use not booked yet,
 * plus what arrives (counted at the start of its day). An item that nobody uses never runs out.
 * @example project({ onHand: 10, booked: [0, 4, 6], usual: [0, 0, 0], usualVar: [0, 0, 0], arrivals: [0, 0, 0] }).runOut //=> 2
 */
export function project(of: Outlook): Projected {
  const days = of.booked.length;
  const mid = new Float64Array(days);
  const sd = new Float64Array(days);
  let level = of.onHand;
  let variance = 0;
  let runOut: number | null = null;
  for (let k = 0; k < days; k += 1) {
    const booked = of.booked[k] ?? 0;
    const use = booked + (of.usual[k] ?? 0);
    level += (of.arrivals[k] ?? 0) - use;
    variance += (of.usualVar[k] ?? 0) + (BOOKED_SPREAD * booked) ** 2;
    mid[k] = level;
    sd[k] = Math.sqrt(variance);
    if (runOut === null && use > 0 && level <= 1e-9) runOut = k;
  }
  return { mid, sd, runOut };
}

/** P20, P50 and P80 of the stock for show: whole base units, never below nothing. */
export function bandOf(p: Projected): {
  readonly low: number[];
  readonly mid: number[];
  readonly high: number[];
} {
  const low: number[] = [];
  const mid: number[] = [];
  const high: number[] = [];
  for (let k = 0; k < p.mid.length; k += 1) {
    const at = p.mid[k] ?? 0;
    const half = Z_80 * (p.sd[k] ?? 0);
    low.push(Math.max(0, Math.round(at - half)));
    mid.push(Math.max(0, Math.round(at)));
    high.push(Math.max(0, Math.round(at + half)));
  }
  return { low, mid, high };
}

/** Sum of the first `days` entries. */
export function sumTo(values: ArrayLike<number>, days: number): number {
  let sum = 0;
  for (let k = 0; k < Math.min(days, values.length); k += 1) sum += values[k] ?? 0;
  return sum;
}
