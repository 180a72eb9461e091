import type { JobId } from '#core/shared/ids.ts';
import type { Board, JobPlan, JobSpec, Place } from './model.ts';
import { slotFrom } from './offers.ts';

/** A car that is here and was never planned, with the minute it came. */
export type WalkIn = { readonly jobId: JobId; readonly cameMin: number };

/** Nobody knows how long it will stand: a day from now, as long as it is not planned. Common practice, no source. */
const STANDS_MIN = 1440;

/**
 * The board with cars that are here without a plan standing in the yard from when they came, so that nobody else is
 * planned into their room and their own work goes on from there. Where the yard has no room for one, it is anybody's guess
 * where it stands, and it holds no place.
 */
export function withWalkIns(board: Board, walkIns: readonly WalkIn[]): Board {
  if (walkIns.length === 0) return board;
  const jobs = new Map(board.jobs);
  const plans = new Map(board.plans);
  for (const { jobId, cameMin } of walkIns) {
    const job = jobs.get(jobId);
    const yard = board.places.find((p) => p.kind === 'yard' && hasRoom(p, board.nowMin, plans.values()));
    if (!job || !yard) continue;
    const leaveMin = slotFrom(board, Math.max(board.nowMin + STANDS_MIN, job.promiseMin ?? 0));
    const stay = { bayId: yard.id, arriveMin: Math.min(cameMin, board.nowMin), leaveMin };
    plans.set(jobId, { jobId, stays: [stay], pieces: [] });
    jobs.set(jobId, { ...job, start: { kind: 'here', bayId: yard.id, fromMin: board.nowMin } });
  }
  return { ...board, jobs, plans };
}

function hasRoom(place: Place, nowMin: number, plans: Iterable<JobPlan>): boolean {
  if (place.endsMin <= nowMin || place.closed.some((c) => c.startMin <= nowMin && nowMin < c.endMin))
    return false;
  let standing = 0;
  for (const plan of plans)
    if (plan.stays.some((s) => s.bayId === place.id && s.arriveMin <= nowMin && nowMin < s.leaveMin))
      standing += 1;
  return standing < place.capacity;
}

/** Whether work of a job is placed, and not only its car. */
export function isPlanned(board: Board, job: JobSpec): boolean {
  return (board.plans.get(job.id)?.pieces.length ?? 0) > 0;
}
