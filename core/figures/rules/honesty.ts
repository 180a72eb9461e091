import type { HonestyRow } from '#core/shared/views/figures.ts';

/** One finished stage: what was said and what it took, in minutes of attended work. */
export type FinishedStage = { readonly p50Min: number; readonly p80Min: number; readonly actualMin: number };
type Sums = Omit<HonestyRow, 'key' | 'label'>;

/**
 * Estimated against actual of a group of stages. Stages without an estimate or without recorded time are left out:
 * their ratio means nothing. An empty group has drift 1 and 0 stages.
 */
export function honestyOf(all: readonly FinishedStage[]): Sums {
  const stages = all.filter((s) => s.p50Min > 0 && s.actualMin > 0);
  if (stages.length === 0)
    return { stages: 0, estimatedMin: 0, actualMin: 0, driftPpm: 1_000_000, within: 0 };
  const sum = (of: (s: FinishedStage) => number): number => stages.reduce((total, s) => total + of(s), 0);
  const [estimated, actual] = [sum((s) => s.p50Min), sum((s) => s.actualMin)];
  return {
    stages: stages.length,
    estimatedMin: Math.round(estimated),
    actualMin: Math.round(actual),
    driftPpm: Math.round((actual / estimated) * 1_000_000),
    within: stages.filter((s) => s.actualMin <= s.p80Min).length,
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
