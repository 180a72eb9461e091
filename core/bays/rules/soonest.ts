import type { Board, JobSpec } from './model.ts';
import { arriveOf, lastDropOff } from './placer.ts';
import { meansFor, type Promised, promisedAt } from './promised.ts';

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
  const means = meansFor(board, job, wish.runs);
  const { place } = means;
  const ask = { notBeforeMin: wish.notBeforeMin };
  const first = place(ask);
  if (!first) return null;
  const placement = lastDropOff(board, place, first, ask);
  if (wish.marginMin === null) return promisedAt(board, placement, wish.levelPpm, means);
  const holdUntilMin = placement.readyMin + wish.marginMin;
  const held = place({ notBeforeMin: arriveOf(placement), holdUntilMin }) ?? placement;
  return { placement: held, ready: means.readyOf(held.plan), pickUpMin: held.pickUpMin };
}
