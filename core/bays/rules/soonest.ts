import type { Board, JobPlan, JobSpec } from './model.ts';
import { arriveOf, lastDropOff, placerOf } from './placer.ts';
import { type Promised, promisedAt, readyOf } from './promised.ts';

export type SoonestWish = {
  readonly notBeforeMin: number;
  readonly levelPpm: number;
  readonly runs: number;
  /** Minutes after the planned finish that are promised instead of the slot that is sure enough; null = sure enough. */
  readonly marginMin: number | null;
};

/**
 * The first place that fits from a minute on, dropped off as late as leaves the pick-up the same, and promised after
 * `runs` simulations; null when there is none.
 */
export function soonestFor(board: Board, job: JobSpec, wish: SoonestWish): Promised | null {
  const place = placerOf(board, job);
  // One placement is simulated, seldom two: how the others stand is not worth keeping.
  const ready = (plan: JobPlan): readonly number[] => readyOf(board, job, { plan }, wish.runs);
  const ask = { notBeforeMin: wish.notBeforeMin };
  const first = place(ask);
  if (!first) return null;
  const placement = lastDropOff({ board, job, place }, first, ask);
  if (wish.marginMin === null) return promisedAt(board, placement, wish.levelPpm, { place, readyOf: ready });
  const holdUntilMin = placement.readyMin + wish.marginMin;
  const held = place({ notBeforeMin: arriveOf(placement), holdUntilMin }) ?? placement;
  return { placement: held, ready: ready(held.plan), pickUpMin: held.pickUpMin };
}
