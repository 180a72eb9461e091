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

/**
 * The part before tax of an amount that goes off a taxed voucher: its share of what is left before tax, half away from
 * zero, so that the last use takes exactly the rest.
 */
export function netOff({ leftMinor, netMinor }: Balance, amountMinor: number): Minor {
  if (leftMinor === 0) return 0 as Minor;
  return divideHalfAway(BigInt(netMinor) * BigInt(amountMinor), BigInt(leftMinor)) as Minor;
}
