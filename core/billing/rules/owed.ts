import { refuse } from '#core/shared/errors.ts';
import { localDaysBetween } from '#core/shared/time.ts';
import type { LocalDay, Minor } from '#core/shared/units.ts';
import type { SurplusKind } from '#core/shared/views/billing.ts';
import type { AgeingView } from '#core/shared/views/moneyDesk.ts';
import { sum } from './totals.ts';

/** Still to pay on a document; negative when the shop owes. Credit notes come as negative amounts. */
export function owedOn(
  toPayMinor: Minor,
  creditsMinor: readonly number[],
  allocatedMinor: readonly number[],
): Minor {
  return (toPayMinor + sum(creditsMinor) - sum(allocatedMinor)) as Minor;
}

export type OwedInvoice<Id> = { readonly id: Id; readonly owedMinor: Minor };
export type PaymentPlan<Id> = {
  readonly parts: readonly { readonly id: Id; readonly amountMinor: Minor }[];
  readonly surplusMinor: Minor;
  readonly surplus: SurplusKind | null;
};

/**
 * Lays money on documents in the order given. What is above all that is owed must be named.
 * @throws MONEY_ABOVE_OWED when money is left and nobody said what it is
 */
export function layMoney<Id>(
  amountMinor: Minor,
  invoices: readonly OwedInvoice<Id>[],
  surplus: SurplusKind | null,
): PaymentPlan<Id> {
  const parts: { id: Id; amountMinor: Minor }[] = [];
  let left: number = amountMinor;
  for (const invoice of invoices) {
    const take = Math.min(left, Math.max(0, invoice.owedMinor));
    if (take > 0) parts.push({ id: invoice.id, amountMinor: take as Minor });
    left -= take;
  }
  const owedMinor = amountMinor - left;
  if (left > 0 && surplus === null) refuse('MONEY_ABOVE_OWED', { owedMinor, aboveMinor: left });
  return { parts, surplusMinor: left as Minor, surplus: left > 0 ? surplus : null };
}

/**
 * Refuses to pay back more than there is.
 * @throws REFUND_ABOVE_PAID
 */
export function checkRefund(amountMinor: Minor, availableMinor: Minor): void {
  if (amountMinor > availableMinor)
    refuse('REFUND_ABOVE_PAID', { paidMinor: Math.max(0, availableMinor), askedMinor: amountMinor });
}

/** Whole days after the due day, 0 when not due. */
export function overdueDays(dueDay: LocalDay | null, today: LocalDay, owedMinor: number): number {
  if (dueDay === null || owedMinor <= 0) return 0;
  return Math.max(0, localDaysBetween(dueDay, today));
}

/** What is owed by age. Amounts the shop owes are left out: they are paid back, not aged. */
export function ageingOf(
  rows: readonly { readonly owedMinor: number; readonly overdueDays: number }[],
): AgeingView {
  const open = rows.filter((r) => r.owedMinor > 0);
  const between = (from: number, to: number): Minor =>
    sum(open.filter((r) => r.overdueDays >= from && r.overdueDays <= to).map((r) => r.owedMinor)) as Minor;
  return {
    notDueMinor: between(0, 0),
    upTo30Minor: between(1, 30),
    upTo60Minor: between(31, 60),
    upTo90Minor: between(61, 90),
    olderMinor: between(91, Number.POSITIVE_INFINITY),
    owedMinor: sum(open.map((r) => r.owedMinor)) as Minor,
  };
}

/** The last reminder that went out: 0 before the first. */
export type Reminded = { readonly level: number; readonly daysAgo: number };

/**
 * The next reminder level due, 0 when none: levels follow the shop's days after the due day, and never closer on one
 * another than those days lie apart, so that whoever was reminded late is not reminded twice on one day.
 */
export function reminderLevel(overdue: number, daysPerLevel: readonly number[], sent: Reminded): number {
  const next = daysPerLevel[sent.level];
  if (next === undefined || overdue < next) return 0;
  const apart = next - (daysPerLevel[sent.level - 1] ?? next);
  return sent.daysAgo >= apart ? sent.level + 1 : 0;
}
