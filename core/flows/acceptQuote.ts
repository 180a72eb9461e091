import { type Accepted, type AcceptInput, recordAcceptance } from '../billing/commands/accept.ts';
import { sendQuote as markSent } from '../billing/commands/quotes.ts';
import { markQuoted, wantsWork } from '../bookings/commands/jobs.ts';
import { setStages } from '../bookings/commands/setStages.ts';
import type { WriteCtx } from '../context.ts';
import type { QuoteId } from '../shared/ids.ts';
import type { EpochMin } from '../shared/units.ts';
import { movePickUp } from './movePickUp.ts';

/**
 * The customer agrees to an option: the acceptance is kept, its stages become the job's plan, and where they agreed to
 * another pick-up with it the promise moves there; all of it or nothing.
 * Stages that were begun stay; see `setStages`.
 * @throws QUOTE_STATE · QUOTE_LAPSED · OPTION_UNKNOWN · JOB_STATE · JOB_NOT_BOOKED · PICK_UP_NOT_SURE
 */
export function acceptQuote(
  ctx: WriteCtx,
  input: AcceptInput & { readonly pickUpMin?: EpochMin | undefined },
): Omit<Accepted, 'stages'> {
  const { stages, ...accepted } = recordAcceptance(ctx, input);
  setStages(ctx, accepted.jobId, stages, { basis: 'agreed' });
  wantsWork(ctx, { jobId: accepted.jobId, stages });
  markQuoted(ctx, { jobId: accepted.jobId });
  if (input.pickUpMin !== undefined) movePickUp(ctx, accepted.jobId, input.pickUpMin);
  return accepted;
}

/** A quote goes out and its job counts as quoted. @throws QUOTE_STATE · STALE · JOB_STATE */
export function sendQuote(
  ctx: WriteCtx,
  input: { readonly quoteId: QuoteId; readonly revision: number },
): { readonly quoteId: QuoteId } {
  const row = markSent(ctx, input);
  markQuoted(ctx, { jobId: row.jobId });
  return { quoteId: row.id };
}
