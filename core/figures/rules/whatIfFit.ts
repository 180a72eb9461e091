import { meanOf } from '#core/shared/statistics.ts';
import type { Habits } from './whatIfAsks.ts';
import { quantileOf } from './whatIfMeasures.ts';
import { type Frame, oneRun, promisesOf, type Side } from './whatIfOneRun.ts';

/** Runs that each look takes, fewer of a shop with many jobs, whose runs differ less. */
const [ROUNDS, ROUNDS_OF_MANY, MANY_JOBS] = [4, 2, 600];
/** Looks for each of the two shares; one more for the promises. */
const LOOKS = 5;
export const FIT_RUNS = 2 * LOOKS + 1;
/** Seeds far from those of the answer: what was fitted is not tried on the same draws. */
const FIT_SEED = 500_000;

type Fitted = Frame & {
  readonly before: Side;
  /** Mean days and share as recorded; null = not on record. */
  readonly past: {
    readonly stay: number | null;
    readonly wait: number | null;
    readonly kept: number | null;
  };
};

/**
 * Of the waits on record, some came from a full shop and go when it has more room or hands; the rest were the
 * customers' own dates and the plan's own gaps, and stay. How much stays is not on record: it is taken to be the share
 * with which the runs come to the recorded mean, first for the time in the shop, then for the wait before. What cannot
 * be reached within 0 and 1 is left to show as a difference from the record. Promises are then stretched until as many
 * are kept as were.
 * `go` hears how many looks are through and says whether to go on; stopped, what is known by then is returned.
 */
export function fitHabits(model: Fitted, go: (done: number) => boolean): Habits {
  const asRecorded: Habits = { lead: 1, pause: 1, promise: 1 };
  let done = 0;
  const look = (habits: Habits, of: 'stay' | 'wait'): number | null => {
    if (!go(done)) return null;
    done += 1;
    const runs = Array.from({ length: roundsOf(model) }, (_, i) =>
      oneRun(model, model.before, habits, FIT_SEED + i),
    );
    return meanOf(runs.map((run) => run[of]));
  };
  const pause = shareFor((p) => look({ ...asRecorded, pause: p }, 'stay'), model.past.stay);
  done = LOOKS;
  const lead = shareFor((l) => look({ ...asRecorded, pause, lead: l }, 'wait'), model.past.wait);
  return go(2 * LOOKS) ? withPromises(model, { lead, pause, promise: 1 }) : { lead, pause, promise: 1 };
}

function roundsOf({ before }: Fitted): number {
  return before.asks.jobs.length > MANY_JOBS ? ROUNDS_OF_MANY : ROUNDS;
}

function withPromises(model: Fitted, habits: Habits): Habits {
  const { kept } = model.past;
  const took = Array.from({ length: roundsOf(model) }, (_, i) =>
    promisesOf(model, model.before, habits, FIT_SEED + i),
  ).flat();
  return kept === null || took.length === 0 ? habits : { ...habits, promise: quantileOf(took, kept) };
}

/** The share at which a rising function comes to `target`, by false position; 0 or 1 where it lies outside. */
function shareFor(rising: (share: number) => number | null, target: number | null): number {
  if (target === null) return 1;
  let [low, high] = [0, 1];
  let top = rising(high);
  if (top === null || top <= target) return 1;
  let bottom = rising(low);
  if (bottom === null || bottom >= target) return 0;
  for (let i = 2; i < LOOKS; i += 1) {
    const at: number = between(low, high, bottom, top, target);
    const value = rising(at);
    if (value === null) return at;
    if (value > target) [high, top] = [at, value];
    else [low, bottom] = [at, value];
  }
  return between(low, high, bottom, top, target);
}

function between(low: number, high: number, bottom: number, top: number, target: number): number {
  return low + ((high - low) * (target - bottom)) / (top - bottom || 1);
}
