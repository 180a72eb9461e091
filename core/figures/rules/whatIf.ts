import type { LocalDay, Ppm } from '#core/shared/units.ts';
import {
  WHAT_IF_MEASURES,
  type WhatIfLimit,
  type WhatIfMeasure,
  type WhatIfRow,
  type WhatIfView,
} from '#core/shared/views/whatIf.ts';
import type { WhatIfChange } from '#core/shared/whatIfChange.ts';
import { FIT_RUNS, fitHabits } from './whatIfFit.ts';
import { bandOf, type Measures } from './whatIfMeasures.ts';
import { type Frame, oneRun, type Side } from './whatIfOneRun.ts';

/** All that the runs need, gathered in one snapshot. */
export type WhatIfModel = Frame & {
  readonly fromDay: LocalDay;
  readonly toDay: LocalDay;
  readonly before: Side;
  readonly after: Side;
  readonly past: Readonly<Record<WhatIfMeasure, number | null>>;
  readonly limits: readonly WhatIfLimit[];
  readonly change: WhatIfChange;
  readonly seed: number;
  readonly rounds: number;
};

/** How far it has come, and whether somebody wants it to stop. */
export type Watch = {
  readonly progress: (done: number, total: number) => void;
  readonly cancelled: () => boolean;
};

/**
 * Runs the same cars through the shop before and after the change, again and again. How the shop runs its
 * book is fitted to the record first (`fitHabits`). Deterministic by seed and rounds. A stop keeps the
 * rounds that are through; before the first there are no rows.
 */
export function whatIf(model: WhatIfModel, watch: Watch): WhatIfView {
  const total = FIT_RUNS + model.rounds;
  const habits = fitHabits(model, (done) => {
    watch.progress(done, total);
    return !watch.cancelled();
  });
  const before: Measures[] = [];
  const after: Measures[] = [];
  for (let round = 0; round < model.rounds && !watch.cancelled(); round += 1) {
    const seed = model.seed + round;
    before.push(oneRun(model, model.before, habits, seed));
    after.push(oneRun(model, model.after, habits, seed));
    watch.progress(FIT_RUNS + round + 1, total);
  }
  return {
    change: model.change,
    fromDay: model.fromDay,
    toDay: model.toDay,
    weeks: model.before.asks.weeks,
    finished: model.before.asks.jobs.length,
    rounds: before.length,
    roundsAsked: model.rounds,
    rows: before.length === 0 ? [] : WHAT_IF_MEASURES.map((m) => rowOf(m, model, before, after)),
    ownWaitPpm: Math.round(habits.lead * 1_000_000) as Ppm,
    ownPausePpm: Math.round(habits.pause * 1_000_000) as Ppm,
    limits: model.limits,
  };
}

function rowOf(
  name: WhatIfMeasure,
  model: WhatIfModel,
  before: readonly Measures[],
  after: readonly Measures[],
): WhatIfRow {
  return {
    measure: name,
    past: model.past[name],
    before: bandOf(before.map((m) => m[name])),
    after: bandOf(after.map((m) => m[name])),
    difference: bandOf(after.map((m, i) => m[name] - (before[i]?.[name] ?? 0))),
  };
}
