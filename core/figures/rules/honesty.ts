import type { HonestyRow } from '#core/shared/views/figures.ts';

/** One finished stage: what was said and what it took, in minutes of attended work. */
export type FinishedStage = { readonly p50Min: number; readonly p80Min: number; readonly actualMin: number };
type Sums = Omit<HonestyRow, 'key' | 'label'>;

/** The share of stages that the longer time of an estimate is said to hold for. */
const P80 = 0.8;

/**
 * Pinball loss of a quantile forecast: τ·(actual − said) when it took longer, (1 − τ)·(said − actual) when not. Its mean
 * is least for the true quantile, so a range that is wide for safety is told apart from one that is right.
 * @source R. Koenker, G. Bassett, Regression Quantiles, Econometrica 46 (1978), eq. 2.2, from memory
 * @example pinballLoss(0.8, 100, 110) //=> 8
 */
export function pinballLoss(tau: number, said: number, actual: number): number {
  return actual >= said ? tau * (actual - said) : (1 - tau) * (said - actual);
}

/**
 * Estimated against actual of a group of stages. Stages without an estimate or without recorded time are left out:
 * their ratio means nothing. An empty group has drift 1 and 0 stages.
 */
export function honestyOf(all: readonly FinishedStage[]): Sums {
  let [stages, estimated, actual, within, loss] = [0, 0, 0, 0, 0];
  for (const { p50Min, p80Min, actualMin } of all) {
    if (p50Min <= 0 || actualMin <= 0) continue;
    stages += 1;
    estimated += p50Min;
    actual += actualMin;
    loss += pinballLoss(P80, p80Min, actualMin);
    if (actualMin <= p80Min) within += 1;
  }
  if (stages === 0)
    return { stages: 0, estimatedMin: 0, actualMin: 0, driftPpm: 1_000_000, within: 0, lossMin: 0 };
  return {
    stages,
    within,
    estimatedMin: Math.round(estimated),
    actualMin: Math.round(actual),
    driftPpm: Math.round((actual / estimated) * 1_000_000),
    lossMin: loss / stages,
  };
}

/** Groups by a key, largest group first. */
export function grouped<T>(
  items: readonly T[],
  keyOf: (item: T) => string,
): readonly (readonly [string, readonly T[]])[] {
  const groups = Map.groupBy(items, keyOf);
  return [...groups].sort((a, b) => b[1].length - a[1].length || a[0].localeCompare(b[0]));
}
