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
  const stages = all.filter((s) => s.p50Min > 0 && s.actualMin > 0);
  if (stages.length === 0)
    return { stages: 0, estimatedMin: 0, actualMin: 0, driftPpm: 1_000_000, within: 0, lossMin: 0 };
  const sum = (of: (s: FinishedStage) => number): number => stages.reduce((total, s) => total + of(s), 0);
  const [estimated, actual] = [sum((s) => s.p50Min), sum((s) => s.actualMin)];
  return {
    stages: stages.length,
    estimatedMin: Math.round(estimated),
    actualMin: Math.round(actual),
    driftPpm: Math.round((actual / estimated) * 1_000_000),
    within: stages.filter((s) => s.actualMin <= s.p80Min).length,
    lossMin: sum((s) => pinballLoss(P80, s.p80Min, s.actualMin)) / stages.length,
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
