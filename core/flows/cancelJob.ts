import { clearPlan } from '../bays/commands/plan.ts';
import { type SettledDeposit, type SettleInput, settleDeposit } from '../billing/commands/deposits.ts';
import { cancelJob as endAsCancelled, noShow as endAsNoShow } from '../bookings/commands/ends.ts';
import type { WriteCtx } from '../context.ts';
import type { JobId } from '../shared/ids.ts';

export type DepositChoice = Omit<SettleInput, 'jobId'>;
type End = { readonly jobId: JobId; readonly reason: string; readonly deposit: DepositChoice | null };

/**
 * Cancels a job before work began and decides its deposit in the same breath: kept, paid back or moved.
 * Its places on the board are free again.
 * Without a choice a deposit stays held on the job.
 * @throws JOB_STATE once work has begun · NO_DEPOSIT_HELD when a choice is made and nothing is held
 */
export function cancelJob(ctx: WriteCtx, input: End): SettledDeposit | null {
  endAsCancelled(ctx, { jobId: input.jobId, reason: input.reason });
  clearPlan(ctx, input.jobId);
  return input.deposit === null ? null : settleDeposit(ctx, { jobId: input.jobId, ...input.deposit });
}

/**
 * The car did not come; its places are free again, its deposit may be decided with it. The job may be booked again.
 * @throws JOB_STATE unless the job is booked · NO_DEPOSIT_HELD as above
 */
export function noShow(ctx: WriteCtx, input: End): SettledDeposit | null {
  endAsNoShow(ctx, { jobId: input.jobId, reason: input.reason });
  clearPlan(ctx, input.jobId);
  return input.deposit === null ? null : settleDeposit(ctx, { jobId: input.jobId, ...input.deposit });
}
