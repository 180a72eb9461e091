import { quoteEstimates as makeQuote } from '../billing/commands/quotes.ts';
import type { WriteCtx } from '../context.ts';
import { refuse } from '../shared/errors.ts';
import type { JobId, QuoteId } from '../shared/ids.ts';
import type { QuoteBasis } from '../shared/settings/billing.ts';
import { estimateById } from '../views/estimates.ts';

export type QuoteAsk = {
  readonly jobId: JobId;
  readonly estimateIds: readonly string[];
  readonly basis?: QuoteBasis | undefined;
  readonly titles: readonly string[];
  readonly reason: string;
};

/**
 * Makes a quote, or its next version, from kept estimates of a job, one to three, as options A, B, C.
 * @throws NOT_FOUND · ESTIMATES_OF_OTHER_JOB
 */
export function quoteEstimates(
  ctx: WriteCtx,
  ask: QuoteAsk,
): { readonly quoteId: QuoteId; readonly number: number; readonly version: number } {
  const estimates = ask.estimateIds.map(
    (id) => estimateById(ctx.db, id) ?? refuse('NOT_FOUND', { what: 'estimate', id }),
  );
  return makeQuote(ctx, ask, estimates);
}
