import { type Plans, samePlan } from './lay.ts';
import { holds } from './mend.ts';
import type { Board, JobPlan, JobSpec, Stay } from './model.ts';
import { type Occupancy, occupancyOf } from './occupancy.ts';

/** The plans without the ways to the yard that nobody needs: where its bay stays free between two works, the car stands there. */
export function withoutNeedlessMoves(board: Board, movable: readonly JobSpec[], plans: Plans): Plans {
  const tidy = new Map(plans);
  const occupancy = occupancyOf({ ...board, plans }, new Set(), board.nowMin);
  for (const job of movable) {
    const [plan, old] = [tidy.get(job.id), board.plans.get(job.id)];
    if (!plan || !old || plan === old) continue;
    occupancy.remove(plan);
    const stayed = stayedPlan(board, occupancy, plan);
    const kept = samePlan(stayed, old) ? old : stayed;
    const fits = holds(board, [job], new Map(tidy).set(job.id, kept));
    if (fits) tidy.set(job.id, kept);
    occupancy.put(fits ? kept : plan);
  }
  return tidy;
}

function stayedPlan(board: Board, occupancy: Occupancy, plan: JobPlan): JobPlan {
  const yards = board.places.filter((p) => p.kind === 'yard').map((p) => p.id);
  const stays: Stay[] = [];
  for (const [at, stay] of plan.stays.entries()) {
    const before = stays.at(-1);
    const stood = before && { ...before, leaveMin: stay.leaveMin };
    const goesOn = at < plan.stays.length - 1 && stay.arriveMin > board.nowMin;
    const left = before && goesOn && !yards.includes(before.bayId);
    if (stood && left && yards.includes(stay.bayId) && isFree(occupancy, stood)) stays.splice(-1, 1, stood);
    else stays.push(stay);
  }
  return { ...plan, stays };
}

function isFree(occupancy: Occupancy, { bayId, arriveMin, leaveMin }: Stay): boolean {
  return occupancy.placeGaps(bayId).some((g) => g.startMin <= arriveMin && leaveMin <= g.endMin);
}
