import type { WriteCtx } from '../../context.ts';
import type { ConsentWay } from '../../shared/consent.ts';
import { refuse } from '../../shared/errors.ts';
import type { CustomerId, JobId, QuoteId } from '../../shared/ids.ts';
import type { StagePlan } from '../../shared/stagePlan.ts';
import { localDayOf } from '../../shared/time.ts';
import type { Minor } from '../../shared/units.ts';
import type { OptionLetter } from '../../shared/views/billing.ts';
import { shopOf } from '../../views/shop.ts';
import { isLapsed } from '../rules/lapse.ts';
import { optionOf, renameAcceptances, replaceAccepted, saveQuote } from '../store/quotes.ts';
import { openQuote } from './quotes.ts';

export type AcceptInput = {
  readonly quoteId: QuoteId;
  readonly revision: number;
  readonly letter: OptionLetter;
  readonly name: string;
  readonly way: ConsentWay;
  /** Agreed although the day it was good until is past. */
  readonly knowingly: boolean;
};
export type Accepted = {
  readonly jobId: JobId;
  readonly stages: readonly StagePlan[];
  readonly toPayMinor: Minor;
  readonly depositMinor: Minor;
};

/**
 * Records who agreed to which option, how and when. What was agreed before is replaced from this moment on.
 * The stages are for the job: a flow hands them over in the same transaction.
 * @throws QUOTE_STATE · QUOTE_LAPSED unless agreed knowingly · OPTION_UNKNOWN
 */
export function recordAcceptance(ctx: WriteCtx, input: AcceptInput): Accepted {
  const row = openQuote(ctx, input.quoteId, input.revision);
  const today = localDayOf(ctx.now, shopOf(ctx.db).zone);
  if (isLapsed(row.state, row.validUntilDay, today) && !input.knowingly)
    refuse('QUOTE_LAPSED', { validDay: row.validUntilDay });
  const option = optionOf(ctx.db, row.id, input.letter);
  if (!option) return refuse('OPTION_UNKNOWN', { letter: input.letter });
  replaceAccepted(ctx.db, row.jobId);
  saveQuote(ctx.db, row.id, {
    state: 'accepted',
    acceptedMs: ctx.now,
    acceptedLetter: input.letter,
    acceptedName: input.name,
    acceptedWay: input.way,
    sentMs: row.sentMs ?? ctx.now,
  });
  ctx.changed(row.id, 'state', 'acceptance');
  return {
    jobId: row.jobId,
    stages: option.stages,
    toPayMinor: option.toPayMinor,
    depositMinor: option.depositMinor,
  };
}

/** Forgets who agreed to the quotes of a customer's jobs; that somebody did, when and how stays. */
export function eraseAcceptances(ctx: WriteCtx, customerId: CustomerId, instead: string): void {
  renameAcceptances(ctx.db, customerId, instead);
}
