import type { ReadCtx } from '../../context.ts';
import type { CustomerId } from '../../shared/ids.ts';
import type { LocalDay, Minor } from '../../shared/units.ts';
import type { StatementEntry, StatementView, TipReport } from '../../shared/views/statement.ts';
import { paperTagOf, partyOf, sellerOf } from '../../views/billingParty.ts';
import { balanceBefore, entriesIn, tipsIn } from '../../views/statement.ts';
import { sum } from '../rules/totals.ts';
import { checkPeriod } from './journal.ts';

export type StatementAsk = {
  readonly customerId: CustomerId;
  readonly fromDay: LocalDay;
  readonly toDay: LocalDay;
};

/** A customer's account over a period: where it stood, what changed it, where it stands. @throws NOT_FOUND · PERIOD_REVERSED */
export function readStatement(ctx: ReadCtx, ask: StatementAsk): StatementView {
  const { customerId, fromDay, toDay } = ask;
  checkPeriod(fromDay, toDay);
  const { termsDays: _, ...customer } = partyOf(ctx.db, customerId);
  const openingMinor = balanceBefore(ctx.db, customerId, fromDay);
  let balance: number = openingMinor;
  const entries = entriesIn(ctx.db, customerId, fromDay, toDay).map((entry): StatementEntry => {
    balance += entry.amountMinor;
    return { ...entry, balanceMinor: balance as Minor };
  });
  const closingMinor = balance as Minor;
  const seller = sellerOf(ctx.db, paperTagOf(ctx.db, customerId));
  return { customer, seller, fromDay, toDay, openingMinor, entries, closingMinor };
}

/** Tips of a period by person: no revenue of the shop, owed to whom they were given. @throws PERIOD_REVERSED */
export function readTips(
  ctx: ReadCtx,
  ask: { readonly fromDay: LocalDay; readonly toDay: LocalDay },
): TipReport {
  checkPeriod(ask.fromDay, ask.toDay);
  const rows = tipsIn(ctx.db, ask.fromDay, ask.toDay);
  return { rows, amountMinor: sum(rows.map((r) => r.amountMinor)) as Minor };
}
