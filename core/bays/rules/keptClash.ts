import type { JobId } from '#core/shared/ids.ts';
import type { PlanFault, PlanRule } from '#core/shared/views/plan.ts';
import type { Board, JobPlan, Stay } from './model.ts';
import { faultsOfJob } from './validate.ts';

type Plans = ReadonlyMap<JobId, JobPlan>;

/** By which the shop file refuses a plan beside the others, whatever else is agreed; a yard is counted as it now stands. */
const NO_ROOM: readonly PlanRule[] = ['bayTaken', 'personBusy'];

/**
 * The first of these plans for which the others, as they are kept, leave no room; null when there is room for all. The board
 * shows cars as they now stand, and the file holds them as they were planned: where work runs over, a bay can look free
 * that is kept for the car that is late for it.
 */
export function keptClash(board: Board, kept: Plans, plans: readonly JobPlan[]): PlanFault | null {
  const beside: Board = { ...board, plans: withPlans(kept, plans) };
  for (const plan of plans) {
    const job = board.jobs.get(plan.jobId);
    const fault = job && faultsOfJob(beside, job, plan).find((f) => NO_ROOM.includes(f.rule));
    if (fault) return fault;
  }
  return null;
}

export function withPlans(kept: Plans, plans: readonly JobPlan[]): Plans {
  const all = new Map(kept);
  for (const plan of plans) all.set(plan.jobId, plan);
  return all;
}

/**
 * Other cars whose kept stays are in the way of these plans though their cars now are not: a car that is here stands where
 * it stands, and goes on later than was planned. Each with its stays as they now are.
 */
export function overtakenStays(board: Board, kept: Plans, plans: readonly JobPlan[]): readonly JobPlan[] {
  const own = new Set(plans.map((p) => p.jobId));
  const single = new Set(board.places.filter((p) => p.capacity === 1).map((p) => p.id));
  const wanted = plans.flatMap((p) => p.stays.filter((s) => single.has(s.bayId)));
  const inWay = (stays: readonly Stay[]): boolean =>
    stays.some((s) => wanted.some((w) => meet(s, w, board.nowMin)));
  return [...kept.values()].flatMap((old) => {
    const now = board.plans.get(old.jobId);
    const isHere = board.jobs.get(old.jobId)?.start.kind === 'here';
    if (own.has(old.jobId) || !now || !isHere || !inWay(old.stays) || inWay(now.stays)) return [];
    return [{ ...old, stays: now.stays }];
  });
}

function meet(a: Stay, b: Stay, fromMin: number): boolean {
  return (
    a.bayId === b.bayId && Math.max(a.arriveMin, b.arriveMin, fromMin) < Math.min(a.leaveMin, b.leaveMin)
  );
}

/** Until when, of the time before now, the file keeps a bay for another car that stood there during a stay; 0 = it does not. */
export type StoodUntil = (jobId: JobId, stay: Stay) => number;

/**
 * A plan whose begun stays lie from when the file has room for them: of what has begun only what lies ahead needs any. Where
 * cars stood is a record, and two that were in one bay for a while take nothing from what is planned; what is kept of the
 * plan already stays as it is, and a stay that is over is left out where another's is kept there.
 */
export function sinceRoom(board: Board, kept: Plans, plan: JobPlan, stoodUntil: StoodUntil): JobPlan {
  const own = kept.get(plan.jobId)?.stays ?? [];
  const isKept = ({ bayId, arriveMin, leaveMin }: Stay): boolean =>
    own.some((s) => s.bayId === bayId && s.arriveMin <= arriveMin && s.leaveMin >= leaveMin);
  const stays = plan.stays.flatMap((stay): Stay[] => {
    if (stay.arriveMin >= board.nowMin || isKept(stay)) return [stay];
    const arriveMin = Math.max(stay.arriveMin, stoodUntil(plan.jobId, stay));
    return arriveMin < stay.leaveMin ? [{ ...stay, arriveMin }] : [];
  });
  return { ...plan, stays };
}
