import type { JobId } from '#core/shared/ids.ts';
import { isWaiting } from './begun.ts';
import { BY_CONSENT } from './consent.ts';
import { type Board, finishOf, type JobPlan, type JobSpec } from './model.ts';
import { faultsOfJob } from './validate.ts';

/**
 * Less is better, in this order: plans that do not hold, plans that time has passed, customers to be asked, weighted minutes
 * late, confirmed bookings touched, sum of finishes.
 */
export type Score = {
  /** Jobs whose plan cannot be worked as it stands: somebody is away, a bay is closed or taken. */
  readonly broken: number;
  /** Jobs with a stage that should have begun before now and has not: their plan cannot come true. */
  readonly behind: number;
  /** Confirmed jobs whose drop-off would change, or whose promise would be missed or missed by more, without consent. */
  readonly asked: number;
  /** Minutes late as the clock has them, of all jobs together; what orders plans is those minutes times their weights. */
  readonly lateMin: number;
  readonly weighedMin: number;
  readonly lateJobs: number;
  readonly touched: number;
  readonly sumReadyMin: number;
};
/** Who agreed to other times, and whose plan holds nowhere as it is. */
type ScoreOf = { readonly consent: ReadonlySet<JobId>; readonly stuck: ReadonlySet<JobId> };

/** The score of plans. Validating them is dear: of those that are stuck, the ones left as they are count as broken. */
export function scoreOf(
  board: Board,
  jobs: readonly JobSpec[],
  plans: ReadonlyMap<JobId, JobPlan>,
  { consent, stuck }: ScoreOf,
): Score {
  let [broken, behind, asked, lateMin, weighedMin, lateJobs, touched, sumReadyMin] = [0, 0, 0, 0, 0, 0, 0, 0];
  for (const job of jobs) {
    const plan = plans.get(job.id);
    if (!plan) continue;
    const old = board.plans.get(job.id);
    if (plan === old && stuck.has(job.id)) broken += 1;
    if (isBehind(board, job, plan)) behind += 1;
    const late = lateBy(job, plan);
    lateMin += late;
    weighedMin += late * job.lateWeight;
    if (late > 0) lateJobs += 1;
    if (job.confirmed && plan !== old) {
      touched += 1;
      if (!consent.has(job.id) && old && (late > lateBy(job, old) || comesOtherwise(job, plan))) asked += 1;
    }
    sumReadyMin += finishOf(plan) - board.nowMin;
  }
  return { broken, behind, asked, lateMin, weighedMin, lateJobs, touched, sumReadyMin };
}

export function lateBy(job: JobSpec, plan: JobPlan): number {
  return job.promiseMin === null ? 0 : Math.max(0, finishOf(plan) - job.promiseMin);
}

export function comesOtherwise({ start }: JobSpec, plan: JobPlan): boolean {
  return start.kind === 'agreed' && plan.stays[0]?.arriveMin !== start.dropOffMin;
}

export function isBehind(board: Board, job: JobSpec, plan: JobPlan): boolean {
  return plan.pieces.some((p) => p.startMin < board.nowMin && isWaiting(job, p.stageId));
}

/** Jobs whose plan breaks a rule that no consent heals. */
export function brokenOf(board: Board, jobs: readonly JobSpec[]): readonly JobSpec[] {
  return jobs.filter((job) => {
    const plan = board.plans.get(job.id);
    return plan !== undefined && faultsOfJob(board, job, plan).some((f) => !BY_CONSENT.includes(f.rule));
  });
}
