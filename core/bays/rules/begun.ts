import type { StageId } from '#core/shared/ids.ts';
import { NEVER } from './calendar.ts';
import { letGo } from './letGo.ts';
import type { Board, JobPlan, JobSpec, Piece, StageSpec } from './model.ts';

/** A stage whose work can still be planned: nobody is at it now, and it is not over. */
export function waits(stage: StageSpec): boolean {
  return stage.state === 'planned' || stage.state === 'paused';
}

export function isWaiting(job: JobSpec, stageId: StageId): boolean {
  return job.stages.some((s) => s.id === stageId && waits(s));
}

/** What was begun or done last before a stage: when it is over, and how soon and how late the stage may follow. */
export type Behind = {
  readonly overMin: number;
  readonly leastMin: number;
  readonly mostGapMin: number | null;
};
const NOTHING: Behind = { overMin: -NEVER, leastMin: -NEVER, mostGapMin: null };

/** A time to follow in that has passed asks for nothing any more. */
export function behindOf(board: Board, job: JobSpec, stage: StageSpec | undefined): Behind {
  const at = job.stages.findIndex((s) => s.id === stage?.id);
  const last = job.stages.slice(0, Math.max(0, at)).findLast((s) => s.state !== 'dropped');
  if (!last || waits(last)) return NOTHING;
  const pieces = board.plans.get(job.id)?.pieces.filter((p) => p.stageId === last.id) ?? [];
  if (pieces.length === 0) return NOTHING;
  const overMin = Math.max(...pieces.map((p) => p.dwellEndMin));
  const { leastGapMin, mostGapMin } = last;
  const inTime = mostGapMin !== null && overMin + mostGapMin >= board.nowMin;
  return { overMin, leastMin: overMin + leastGapMin, mostGapMin: inTime ? mostGapMin : null };
}

/** The plan that a job goes on with: what has begun or is done stays as it was, what waits is as newly placed. */
export function wentOn(job: JobSpec, old: JobPlan, fresh: JobPlan, nowMin: number): JobPlan {
  const begun = old.pieces.filter((p) => !isWaiting(job, p.stageId));
  return {
    jobId: job.id,
    pieces: [...begun, ...fresh.pieces],
    stays: job.start.kind === 'here' ? joinPast(old, fresh, nowMin) : fresh.stays,
  };
}

/** What of a plan cannot be changed any more: work that has begun, and where the car stands while it is at it. */
export function begunPart(board: Board, job: JobSpec, plan: JobPlan): JobPlan {
  const { start } = job;
  const pieces = plan.pieces.filter((p) => !isWaiting(job, p.stageId));
  if (start.kind !== 'here') return { jobId: job.id, pieces, stays: [] };
  const { bayId, fromMin } = start;
  const stay = {
    bayId,
    arriveMin: Math.min(board.nowMin, fromMin),
    leaveMin: Math.max(board.nowMin + 1, fromMin),
  };
  return { jobId: job.id, pieces, stays: [stay] };
}

/** A car that is here keeps the stays that are behind it. */
function joinPast(old: JobPlan, fresh: JobPlan, nowMin: number): JobPlan['stays'] {
  const current = old.stays.findLast((s) => s.arriveMin <= nowMin);
  const [first, ...rest] = fresh.stays;
  if (!current || !first) return fresh.stays;
  const past = old.stays.filter((s) => s.arriveMin < current.arriveMin);
  if (first.bayId === current.bayId) return [...past, { ...first, arriveMin: current.arriveMin }, ...rest];
  // In the minute it came it has stood nowhere yet: a stay of no length would break the plan.
  if (first.arriveMin <= current.arriveMin) return [...past, first, ...rest];
  return [...past, { ...current, leaveMin: first.arriveMin }, first, ...rest];
}

/**
 * A new plan as it is written down, beside the one that was kept: what has begun stays as it was planned, not as it now
 * looks, so that an overrun takes nobody away from the next car on paper; it only lets go of what it holds for nothing.
 * What somebody moved or shared out although it had begun is written down as they said.
 */
export function writtenDown(board: Board, plan: JobPlan, kept: JobPlan | undefined): JobPlan {
  const job = board.jobs.get(plan.jobId);
  if (!job || !kept) return plan;
  const held = letGo(kept, job.stages, board.nowMin, board.plans.get(job.id)) ?? kept;
  const same = held.pieces.filter((p) => !isWaiting(job, p.stageId) && !isMoved(plan, kept, p.stageId));
  const fresh = plan.pieces.filter((p) => !same.some((s) => s.stageId === p.stageId));
  return { ...plan, pieces: [...same, ...fresh] };
}

/** Whether work that a plan moves was begun or done since it was made: only what waits is ever planned again. */
export function begunSince(job: JobSpec, plan: JobPlan, kept: JobPlan): boolean {
  return job.stages.some((s) => !waits(s) && isMoved(plan, kept, s.id));
}

/** Whether what waits of a job was planned otherwise since its plan was left like this. */
export function plannedSince(job: JobSpec, left: JobPlan, kept: JobPlan): boolean {
  const waiting = (plan: JobPlan): string =>
    JSON.stringify(
      plan.pieces
        .filter((p) => isWaiting(job, p.stageId))
        .map((p) => [p.startMin, p.endMin, p.stageId, p.bayId, p.personIds.toSorted()])
        .toSorted((a, b) => Number(a[0]) - Number(b[0])),
    );
  return waiting(left) !== waiting(kept);
}

/** To another place, other people or a later start, or cut in more pieces. */
function isMoved(plan: JobPlan, kept: JobPlan, stageId: StageId): boolean {
  const of = (p: JobPlan): readonly Piece[] => p.pieces.filter((x) => x.stageId === stageId);
  const [now, before] = [of(plan), of(kept)];
  if (now.length === 0) return false;
  return (
    now.length !== before.length ||
    now.some((p, i) => {
      const was = before[i];
      return (
        !was ||
        p.bayId !== was.bayId ||
        p.startMin > was.startMin ||
        p.personIds.join() !== was.personIds.join()
      );
    })
  );
}
