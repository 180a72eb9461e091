import { refuse } from '#core/shared/errors.ts';
import { divideHalfAway } from '#core/shared/money.ts';
import { addLocalDays } from '#core/shared/time.ts';
import type { LocalDay, Minor } from '#core/shared/units.ts';

/** What is left of a voucher, with tax and (of a taxed one) the part of it before tax. */
export type Balance = { readonly leftMinor: Minor; readonly netMinor: Minor };
export type Spendable = {
  readonly number: number;
  readonly expiresDay: LocalDay | null;
  readonly leftMinor: Minor;
};

/** The last day of a voucher sold today; 0 days = it has none. How long one must hold is local law. */
export function lastDayOf(soldDay: LocalDay, days: number): LocalDay | null {
  return days === 0 ? null : addLocalDays(soldDay, days);
}

/**
 * Whether an amount may go off a voucher today.
 * @throws VOUCHER_EXPIRED after its last day · VOUCHER_SPENT when nothing or less than that is left
 */
export function checkSpend(voucher: Spendable, amountMinor: number, today: LocalDay): void {
  const { number, expiresDay, leftMinor } = voucher;
  if (expiresDay !== null && today > expiresDay) refuse('VOUCHER_EXPIRED', { number, lastDay: expiresDay });
  if (amountMinor > leftMinor) refuse('VOUCHER_SPENT', { number, leftMinor, askedMinor: amountMinor });
}

/** @throws VOUCHER_NO_LAST_DAY */
function endOf({ number, expiresDay }: Spendable): LocalDay {
  return expiresDay ?? refuse('VOUCHER_NO_LAST_DAY', { number });
}

/** The first day that what is left of an expired voucher may be let go: held for some days after its last one. */
export function letGoFrom(lastDay: LocalDay, holdDays: number): LocalDay {
  return addLocalDays(lastDay, holdDays + 1);
}

/**
 * Whether what is left of a voucher may be let go as income today. A supply is what tax falls on, and a voucher that
 * nobody uses is none: a multi-purpose one stays untaxed, of a single-purpose one the tax was that of its sale.
 * @source Directive (EU) 2016/1065 deals with issue, transfer and redemption only; what lapses is national law
 * @throws VOUCHER_NO_LAST_DAY · VOUCHER_STILL_HELD before the time the shop has set · VOUCHER_EMPTY
 */
export function checkLetGo(voucher: Spendable, holdDays: number, today: LocalDay): void {
  const { number, leftMinor } = voucher;
  const fromDay = letGoFrom(endOf(voucher), holdDays);
  if (today < fromDay) refuse('VOUCHER_STILL_HELD', { number, fromDay });
  if (leftMinor === 0) refuse('VOUCHER_EMPTY', { number });
}

/**
 * Whether a voucher may be taken until a day on the owner's word: later than it is, and not in the past.
 * @throws VOUCHER_NO_LAST_DAY · VOUCHER_LATE_DAY
 */
export function checkLateDay(voucher: Spendable, untilDay: LocalDay, today: LocalDay): void {
  const { number } = voucher;
  const lastDay = endOf(voucher);
  const fromDay = lastDay < today ? today : addLocalDays(lastDay, 1);
  if (untilDay < fromDay) refuse('VOUCHER_LATE_DAY', { number, fromDay });
}

/**
 * The part before tax of an amount that goes off a taxed voucher: its share of what is left before tax, half away from
 * zero, so that the last use takes exactly the rest.
 */
export function netOff({ leftMinor, netMinor }: Balance, amountMinor: number): Minor {
  if (leftMinor === 0) return 0 as Minor;
  return divideHalfAway(BigInt(netMinor) * BigInt(amountMinor), BigInt(leftMinor)) as Minor;
}
