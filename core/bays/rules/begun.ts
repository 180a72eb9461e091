import type { StageId } from '#core/shared/ids.ts';
import type { JobPlan, JobSpec, StageSpec } from './model.ts';

/** A stage whose work can still be planned: nobody is at it now, and it is not over. */
export function waits(stage: StageSpec): boolean {
  return stage.state === 'planned' || stage.state === 'paused';
}

export function isWaiting(job: JobSpec, stageId: StageId): boolean {
  return job.stages.some((s) => s.id === stageId && waits(s));
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

/** A car that is here keeps the stays that are behind it. */
function joinPast(old: JobPlan, fresh: JobPlan, nowMin: number): JobPlan['stays'] {
  const current = old.stays.findLast((s) => s.arriveMin <= nowMin);
  const [first, ...rest] = fresh.stays;
  if (!current || !first) return fresh.stays;
  const past = old.stays.filter((s) => s.arriveMin < current.arriveMin);
  if (first.bayId === current.bayId) return [...past, { ...first, arriveMin: current.arriveMin }, ...rest];
  return [...past, { ...current, leaveMin: first.arriveMin }, first, ...rest];
}
