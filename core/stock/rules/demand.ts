import { invariant } from '../../shared/errors.ts';
import { type Random, seeded } from '../../shared/random.ts';

/** Share of days-apart bookings assumed before there is history: decays over this many days. Common practice, no source. */
export const DEFAULT_LEAD_DAYS = 12;
/** So many imagined bookings stand behind the default share. Common practice, no source. */
const PRIOR_BOOKINGS = 10;

/**
 * For each day ahead, the share of that day's work that is usually not booked yet: bookings that came later than
 * so many days before their drop-off. Day 0 has none left to come. Without this, booked jobs would count twice.
 * `leads` are whole days from booking to drop-off of past jobs.
 * @example shareNotBooked([], 2) //=> [0, 0.08]
 */
export function shareNotBooked(leads: readonly number[], days: number): Float64Array {
  const shorter = new Float64Array(days + 1);
  for (const lead of leads) {
    const at = Math.max(0, Math.floor(lead)) + 1;
    if (at <= days) shorter[at] = (shorter[at] ?? 0) + 1;
  }
  const share = new Float64Array(days);
  let seen = 0;
  for (let k = 1; k < days; k += 1) {
    seen += shorter[k] ?? 0;
    const usual = 1 - Math.exp(-k / DEFAULT_LEAD_DAYS);
    share[k] = (seen + PRIOR_BOOKINGS * usual) / (leads.length + PRIOR_BOOKINGS);
  }
  return share;
}

/** Mean and variance of a day's use, by weekday (0 = Monday), over the days the shop was open. */
export type UsualUse = {
  readonly mean: Float64Array;
  readonly variance: Float64Array;
  /** Per day of the calendar, closed days included. */
  readonly perDay: number;
  readonly usedDays: number;
  readonly openDays: number;
  readonly days: number;
};

/**
 * The usual use per weekday from one figure per past day (`use[0]` fell on weekday `firstWeekday`, 0 = Monday).
 * Only days marked in `open` count, and days on which something was used all the same: a day on which nobody could
 * work says nothing about how often an item is used. The spread is taken about each weekday's own mean.
 */
export function usualUse(use: ArrayLike<number>, firstWeekday: number, open: ArrayLike<number>): UsualUse {
  const mean = new Float64Array(7);
  const variance = new Float64Array(7);
  const n = new Float64Array(7);
  let sum = 0;
  let usedDays = 0;
  let openDays = 0;
  for (let i = 0; i < use.length; i += 1) {
    const x = use[i] ?? 0;
    if (!counts(use, open, i)) continue;
    const d = (firstWeekday + i) % 7;
    n[d] = (n[d] ?? 0) + 1;
    mean[d] = (mean[d] ?? 0) + x;
    sum += x;
    openDays += 1;
    if (x > 0) usedDays += 1;
  }
  for (let d = 0; d < 7; d += 1) if ((n[d] ?? 0) > 0) mean[d] = (mean[d] ?? 0) / (n[d] ?? 1);
  for (let i = 0; i < use.length; i += 1) {
    if (!counts(use, open, i)) continue;
    const d = (firstWeekday + i) % 7;
    const off = (use[i] ?? 0) - (mean[d] ?? 0);
    variance[d] = (variance[d] ?? 0) + off * off;
  }
  for (let d = 0; d < 7; d += 1) variance[d] = (variance[d] ?? 0) / Math.max(1, (n[d] ?? 0) - 1);
  const perDay = use.length > 0 ? sum / use.length : 0;
  return { mean, variance, perDay, usedDays, openDays, days: use.length };
}

function counts(use: ArrayLike<number>, open: ArrayLike<number>, i: number): boolean {
  return (open[i] ?? 0) > 0 || (use[i] ?? 0) > 0;
}

/** The figures of the days that count, oldest first. @see usualUse */
export function onOpenDays(use: ArrayLike<number>, open: ArrayLike<number>): Float64Array {
  const found: number[] = [];
  for (let i = 0; i < use.length; i += 1) if (counts(use, open, i)) found.push(use[i] ?? 0);
  return Float64Array.from(found);
}

/** Mean open days between uses above which demand counts as intermittent. @source Syntetos & Boylan (2005), cut-off 1.32 */
export const INTERMITTENT_FROM = 1.32;

export function isIntermittent(use: Pick<UsualUse, 'usedDays' | 'openDays'>): boolean {
  return use.usedDays > 0 && use.openDays / use.usedDays > INTERMITTENT_FROM;
}

/** Weeks of own history, and days with use in them, from which a rate is taken as steady. Common practice, no source. */
export const STEADY_DAYS = 56;
export const STEADY_USES = 6;

/**
 * Whether past use may be read as a rate for the year. An economic quantity presumes one: it forgives a rate that is
 * wrong by half (about 2 % dearer), but not one drawn from the first job of a new shop.
 */
export function isSteady(use: Pick<UsualUse, 'usedDays' | 'days'>): boolean {
  return use.days >= STEADY_DAYS && use.usedDays >= STEADY_USES;
}

export type Croston = {
  /** Smoothed size of a use, smoothed days between uses, and their quotient per day. */
  readonly size: number;
  readonly period: number;
  readonly perDay: number;
};

/**
 * Croston's forecast of intermittent demand. Starts from the first use and its position as the first period;
 * both are updated on days with use only. All zero: size and rate 0, period Infinity.
 * @source J. D. Croston, Oper. Res. Q. 23 (1972) 289–303
 */
export function croston(use: ArrayLike<number>, alpha: number): Croston {
  invariant(alpha > 0 && alpha <= 1, 'alpha lies in (0, 1]');
  let size = 0;
  let period = Number.POSITIVE_INFINITY;
  let since = 0;
  let started = false;
  for (let i = 0; i < use.length; i += 1) {
    since += 1;
    const x = use[i] ?? 0;
    if (x <= 0) continue;
    size = started ? size + alpha * (x - size) : x;
    period = started ? period + alpha * (since - period) : since;
    started = true;
    since = 0;
  }
  return { size, period, perDay: started ? size / period : 0 };
}

/**
 * Croston's rate less its bias: times 1 − α/2.
 * @source A. A. Syntetos & J. E. Boylan, Int. J. Forecasting 21 (2005) 303–314
 */
export function syntetosBoylan(use: ArrayLike<number>, alpha: number): number {
  return (1 - alpha / 2) * croston(use, alpha).perDay;
}

/**
 * Use over `days` days that is not exceeded with probability `level`, by drawing past days at random (with
 * replacement) `draws` times from a fixed seed. For intermittent items, whose demand is far from normal.
 */
export function leadQuantile(
  use: ArrayLike<number>,
  days: number,
  level: number,
  draws = 400,
  random: Random = seeded(20_260),
): number {
  if (use.length === 0 || days <= 0) return 0;
  const totals = new Float64Array(draws);
  for (let k = 0; k < draws; k += 1) {
    let sum = 0;
    for (let d = 0; d < days; d += 1) sum += use[Math.floor(random() * use.length)] ?? 0;
    totals[k] = sum;
  }
  totals.sort();
  return totals[Math.min(draws - 1, Math.ceil(level * draws) - 1)] ?? 0;
}
