import type { PlanRule } from '#core/shared/views/plan.ts';
import { type Board, finishOf, type JobPlan, type JobSpec } from './model.ts';
import { faultsOfJob } from './validate.ts';

/** Rules that the desk may set aside when the customer agrees. */
export const BY_CONSENT: readonly PlanRule[] = ['promiseMissed', 'dropOffMoved'];

/**
 * Whether the customer has to agree to another plan first. A promise that is late already may stay as late as it is:
 * that is no new breach; later than that is one.
 */
export function asksFirst(board: Board, job: JobSpec, old: JobPlan, plan: JobPlan): boolean {
  const late = (p: JobPlan): number =>
    Math.max(0, finishOf(p) - (job.promiseMin ?? Number.POSITIVE_INFINITY));
  const staysLate = late(plan) <= late(old);
  return faultsOfJob(board, job, plan).some(
    (f) => BY_CONSENT.includes(f.rule) && !(f.rule === 'promiseMissed' && staysLate),
  );
}
