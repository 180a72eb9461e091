import { quoteEstimates as makeQuote, type QuoteInput } from '../billing/commands/quotes.ts';
import type { WriteCtx } from '../context.ts';
import { refuse } from '../shared/errors.ts';
import type { QuoteId } from '../shared/ids.ts';
import { estimateById } from '../views/estimates.ts';

export type QuoteAsk = QuoteInput & { readonly estimateIds: readonly string[] };

/**
 * Makes a quote, or its next version, from kept estimates of a job, one to three, as options A, B, C.
 * @throws NOT_FOUND · ESTIMATES_OF_OTHER_JOB · PACKAGE_NOT_OFFERED · PACKAGE_OTHER_WORK · PACKAGE_FIXED
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
