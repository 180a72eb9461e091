import type { ReadCtx, WriteCtx } from '../../context.ts';
import { refuse } from '../../shared/errors.ts';
import type { Minor } from '../../shared/units.ts';
import type { TillView } from '../../shared/views/till.ts';
import { cashCounts, expectedInTill, lastReceipt } from '../../views/till.ts';
import { checkCount, type Opening, type TillCount, withOpening } from '../rules/cash.ts';
import { addCashCount } from '../store/till.ts';
import { todayOf } from './payments.ts';

/** What should lie in the till, and its last counts. */
export function readTill(ctx: ReadCtx): TillView {
  return { expectedMinor: expectedInTill(ctx.db), counts: cashCounts(ctx.db) };
}

export type CountInput = TillCount & {
  /** What the first count says of the time before it; null for every other. */
  readonly opening: Opening | null;
};

/**
 * Keeps a count of the till; a difference is booked with its reason, what goes to the bank leaves it.
 * @throws CASH_MOVED when another amount was expected by now · TILL_OPENED when an opening is said of a till that was
 * counted before · BANKED_ABOVE_COUNTED · CASH_NEEDS_REASON
 */
export function countCash(ctx: WriteCtx, input: CountInput): { readonly leftMinor: Minor } {
  const { opening, ...said } = input;
  if (opening && cashCounts(ctx.db).length > 0) refuse('TILL_OPENED', {});
  checkCount(said, expectedInTill(ctx.db), opening);
  const count = opening ? withOpening(said, opening) : said;
  const { countedMinor, expectedMinor } = count;
  addCashCount(ctx.db, {
    ...count,
    reason: countedMinor === expectedMinor ? '' : count.reason,
    lastReceipt: lastReceipt(ctx.db),
    atMs: ctx.now,
    localDay: todayOf(ctx),
    countedBy: ctx.actor?.personId ?? null,
  });
  ctx.changed('till', 'counted');
  return { leftMinor: (countedMinor - count.bankedMinor) as Minor };
}
