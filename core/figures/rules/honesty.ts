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

/** A group of stages added up, in whole numbers, so that groups add up to each other exactly. */
export type HonestySums = {
  /** All of them; `stages` are those with an estimate and recorded time. */
  readonly finished: number;
  readonly stages: number;
  readonly estimatedMin: number;
  readonly actualMs: number;
  readonly within: number;
  /** What was longer than the P80 by, and what was shorter, of all stages together. */
  readonly overMs: number;
  readonly underMs: number;
};
type Adding = { -readonly [K in keyof HonestySums]: HonestySums[K] };

export function noSums(): Adding {
  return { finished: 0, stages: 0, estimatedMin: 0, actualMs: 0, within: 0, overMs: 0, underMs: 0 };
}

/** Adds a stage. Without an estimate or without recorded time its ratio means nothing, and only the stage counts. */
export function addStage(sums: Adding, { p50Min, p80Min, actualMin }: FinishedStage): void {
  sums.finished += 1;
  if (p50Min <= 0 || actualMin <= 0) return;
  const [actualMs, saidMs] = [Math.round(actualMin * 60_000), Math.round(p80Min * 60_000)];
  sums.stages += 1;
  sums.estimatedMin += p50Min;
  sums.actualMs += actualMs;
  sums.overMs += Math.max(0, actualMs - saidMs);
  sums.underMs += Math.max(0, saidMs - actualMs);
  if (actualMs <= saidMs) sums.within += 1;
}

export function addSums(sums: Adding, more: HonestySums): void {
  for (const key of Object.keys(sums) as (keyof HonestySums)[]) sums[key] += more[key];
}

/** Estimated against actual of a group of stages; see {@link toldOf}. */
export function honestyOf(all: readonly FinishedStage[]): Sums {
  const sums = noSums();
  for (const stage of all) addStage(sums, stage);
  return toldOf(sums);
}

/** What the sums of a group say. A group without stages that count has drift 1 and 0 stages. */
export function toldOf({ stages, estimatedMin, actualMs, within, overMs, underMs }: HonestySums): Sums {
  if (stages === 0)
    return { stages: 0, estimatedMin: 0, actualMin: 0, driftPpm: 1_000_000, within: 0, lossMin: 0 };
  const lossMs = pinballLoss(P80, 0, overMs) + pinballLoss(P80, underMs, 0);
  return {
    stages,
    within,
    estimatedMin: Math.round(estimatedMin),
    actualMin: Math.round(actualMs / 60_000),
    driftPpm: Math.round((actualMs / (estimatedMin * 60_000)) * 1_000_000),
    lossMin: lossMs / 60_000 / stages,
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
