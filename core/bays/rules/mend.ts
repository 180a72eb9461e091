import type { JobId } from '#core/shared/ids.ts';
import { type Layer, layAgain, lift, type Plans, swapBack } from './lay.ts';
import { type Board, finishOf, type JobPlan, type JobSpec } from './model.ts';
import { brokenOf, isBehind } from './score.ts';
import { faultsOfJob } from './validate.ts';

/** Plans that do not hold, taken apart and put together again: cars in one place at once, people who are away. */

export type Mended = {
  readonly plans: Map<JobId, JobPlan>;
  /** Jobs that fit nowhere: they stay as they are, and the others are laid around them. */
  readonly stuck: readonly JobSpec[];
};

/**
 * The plans with those that do not hold taken out and put back where they fit. Where one fits nowhere it stays as it is,
 * and the others are laid around it: nobody is sent to two cars at once.
 */
export function mended(layer: Layer, movable: readonly JobSpec[], from: Plans): Mended {
  const { board, occupancy, asked } = layer;
  const last = (j: JobSpec): number => (asked.has(j.id) ? board.horizonMin : 0);
  let open = brokenOf({ ...board, plans: from }, movable).toSorted(
    (a, b) => last(a) - last(b) || (a.promiseMin ?? 0) - (b.promiseMin ?? 0),
  );
  const stuck: JobSpec[] = [];
  for (;;) {
    for (const job of open) lift(layer, job, from.get(job.id) as JobPlan);
    const plans = new Map(from);
    const cannot =
      open.find((job) => !layAgain(layer, plans, job)) ?? open.find((job) => !holds(board, [job], plans));
    if (!cannot) return { plans, stuck };
    swapBack(occupancy, plans, from, open);
    stuck.push(cannot);
    open = open.filter((job) => job !== cannot);
  }
}

/** Whether plans can be kept as a whole: none of those that were moved breaks a rule. */
export function holds(board: Board, jobs: readonly JobSpec[], plans: Plans): boolean {
  const moved = jobs.filter((job) => plans.get(job.id) !== board.plans.get(job.id));
  return brokenOf({ ...board, plans }, moved).length === 0;
}

/** Who would be asked first, of those that are tried: a search through all of a full board would be long. */
const TRIED = 12;

/**
 * Mends what is stuck by asking customers to come later, as few of them as it finds: each of those who could be asked is
 * tried, the one that sets most plans right is kept, and so on until none helps.
 */
export function mendedByAsking(
  layer: Layer,
  movable: readonly JobSpec[],
  from: Plans,
): Mended & { readonly asked: ReadonlySet<JobId> } {
  let [best, asked] = [mended(layer, movable, from), layer.asked];
  for (;;) {
    const more = best.stuck
      .filter((j) => canBeAsked(layer.board, j) && !asked.has(j.id))
      .slice(0, TRIED)
      .map((j) => new Set([...asked, j.id]))
      .map((set) => ({ set, ...triedWith({ ...layer, asked: set }, movable, best.plans, from) }))
      .toSorted((a, b) => a.stuck.length - b.stuck.length || a.weighedMin - b.weighedMin)[0];
    if (!more || more.stuck.length >= best.stuck.length) return { ...best, asked };
    swapBack(layer.occupancy, best.plans, from, movable);
    [best, asked] = [mended({ ...layer, asked: more.set }, movable, from), more.set];
  }
}

/** How it would go with more people asked; the board is left as it was. */
function triedWith(layer: Layer, movable: readonly JobSpec[], now: Plans, from: Plans) {
  swapBack(layer.occupancy, now, from, movable);
  const { plans, stuck } = mended(layer, movable, from);
  swapBack(layer.occupancy, plans, now, movable);
  const late = movable.map(
    (j) => j.lateWeight * (finishOf(plans.get(j.id) as JobPlan) - (j.promiseMin ?? Number.POSITIVE_INFINITY)),
  );
  return { stuck, weighedMin: late.reduce((sum, min) => sum + Math.max(0, min), 0) };
}

/** A car that only has not come yet may still come any minute: nobody rings up for that. */
function canBeAsked(board: Board, job: JobSpec): boolean {
  const plan = board.plans.get(job.id);
  if (!plan || job.start.kind !== 'agreed') return false;
  return isBehind(board, job, plan) || faultsOfJob(board, job, plan).some((f) => f.rule !== 'dropOffPassed');
}
