import { addLocalDays, isoWeekday, localDaysBetween } from '../../shared/time.ts';
import type { LocalDay } from '../../shared/units.ts';

/** When a supplier works. `leadDays` are their own working days from order to delivery. */
export type SupplierDays = {
  readonly leadDays: number;
  readonly openWeekdays: readonly number[];
  readonly closedDays: readonly string[];
};

/** A supplier that never opens is treated as open every day, so that a slip of the list stops nothing. */
export function isOpen(day: LocalDay, s: SupplierDays): boolean {
  if (s.openWeekdays.length === 0) return !s.closedDays.includes(day);
  return s.openWeekdays.includes(isoWeekday(day)) && !s.closedDays.includes(day);
}

/** The first working day of the supplier on or after `day` (looks a year ahead at most). */
export function nextOpen(day: LocalDay, s: SupplierDays): LocalDay {
  let at = day;
  for (let i = 0; i < 366; i += 1, at = addLocalDays(at, 1)) if (isOpen(at, s)) return at;
  return day;
}

/** The day an order placed on `day` arrives: taken up on the next open day, then `leadDays` open days on. */
export function arrivalDay(day: LocalDay, s: SupplierDays): LocalDay {
  let at = nextOpen(day, s);
  for (let left = s.leadDays; left > 0; left -= 1) at = nextOpen(addLocalDays(at, 1), s);
  return at;
}

/**
 * The last open day on which an order still arrives before `needed`, whose own day counts as one without it; `today`
 * where even that is too late, and no order before `today` is thought of.
 */
export function orderByDay(today: LocalDay, needed: LocalDay, s: SupplierDays): LocalDay {
  for (let day = addLocalDays(needed, -1); day > today; day = addLocalDays(day, -1))
    if (isOpen(day, s) && arrivalDay(day, s) < needed) return day;
  return today;
}

/** Open days from the day after `from` up to and with `to`: a delivery's lead time. */
export function openDaysBetween(from: LocalDay, to: LocalDay, s: SupplierDays): number {
  let count = 0;
  const days = localDaysBetween(from, to);
  for (let i = 1; i <= days; i += 1) if (isOpen(addLocalDays(from, i), s)) count += 1;
  return count;
}

export type LearnedLead = { readonly meanDays: number; readonly sdDays: number; readonly n: number };

/** Lead time from deliveries: mean and standard deviation in open days; null below three. */
export function learnLead(leads: readonly number[]): LearnedLead | null {
  const n = leads.length;
  if (n < 3) return null;
  const meanDays = leads.reduce((a, b) => a + b, 0) / n;
  const sdDays = Math.sqrt(leads.reduce((a, b) => a + (b - meanDays) ** 2, 0) / (n - 1));
  return { meanDays, sdDays, n };
}
