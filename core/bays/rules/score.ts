import type { JobId } from '#core/shared/ids.ts';
import { isWaiting } from './begun.ts';
import { BY_CONSENT } from './consent.ts';
import { type Board, finishOf, type JobPlan, type JobSpec } from './model.ts';
import { faultsOfJob } from './validate.ts';

/** Less is better, in this order: plans that time has passed, weighted minutes late, confirmed bookings touched, sum of finishes. */
export type Score = {
  /** Jobs whose plan cannot be worked as it stands: somebody is away, a bay is closed or taken. */
  readonly broken: number;
  /** Jobs with a stage that should have begun before now and has not: their plan cannot come true. */
  readonly behind: number;
  readonly lateMin: number;
  readonly lateJobs: number;
  readonly touched: number;
  readonly sumReadyMin: number;
};
/** The score of plans, but for `broken`, which is dear to count and is counted at the ends of a search only. */
export function scoreOf(board: Board, jobs: readonly JobSpec[], plans: ReadonlyMap<JobId, JobPlan>): Score {
  let [behind, lateMin, lateJobs, touched, sumReadyMin] = [0, 0, 0, 0, 0];
  for (const job of jobs) {
    const plan = plans.get(job.id);
    if (!plan) continue;
    if (isBehind(board, job, plan)) behind += 1;
    const ready = finishOf(plan);
    const late = job.promiseMin === null ? 0 : Math.max(0, ready - job.promiseMin);
    lateMin += late;
    if (late > 0) lateJobs += 1;
    if (job.confirmed && plan !== board.plans.get(job.id)) touched += 1;
    sumReadyMin += ready - board.nowMin;
  }
  return { broken: 0, behind, lateMin, lateJobs, touched, sumReadyMin };
}

export function isBehind(board: Board, job: JobSpec, plan: JobPlan): boolean {
  return plan.pieces.some((p) => p.startMin < board.nowMin && isWaiting(job, p.stageId));
}

export function better(a: Score, b: Score): boolean {
  if (a.behind !== b.behind) return a.behind < b.behind;
  if (a.lateMin !== b.lateMin) return a.lateMin < b.lateMin;
  if (a.touched !== b.touched) return a.touched < b.touched;
  return a.sumReadyMin < b.sumReadyMin;
}

/** Jobs whose plan breaks a rule that no consent heals. */
export function brokenOf(board: Board, jobs: readonly JobSpec[]): readonly JobSpec[] {
  return jobs.filter((job) => {
    const plan = board.plans.get(job.id);
    return plan !== undefined && faultsOfJob(board, job, plan).some((f) => !BY_CONSENT.includes(f.rule));
  });
}
