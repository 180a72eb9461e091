import { refuse } from '../../shared/errors.ts';
import { addLocalDays } from '../../shared/time.ts';
import type { LocalDay } from '../../shared/units.ts';

export type HourCost = { readonly personId: string; readonly fromDay: LocalDay; readonly hourMinor: number };

/** As far as a raise is agreed ahead. */
const MOST_AHEAD_DAYS = 730;
/** A digit too many or too few is more than this many times off. */
const FAR_TIMES = 5;

/**
 * A day from which an hour of somebody may cost something: from their first day, or an earlier one that work of theirs was
 * typed in for, until two years from now.
 * @throws HOUR_COST_DAY
 */
export function checkCostDay(
  person: { readonly name: string; readonly startedDay: LocalDay },
  day: LocalDay,
  { today, workedDay }: { readonly today: LocalDay; readonly workedDay: LocalDay | null },
): void {
  const { startedDay } = person;
  const firstDay = workedDay !== null && workedDay < startedDay ? workedDay : startedDay;
  const latestDay = addLocalDays(today, MOST_AHEAD_DAYS);
  if (day < firstDay || day > latestDay)
    refuse('HOUR_COST_DAY', {
      name: person.name,
      day,
      startedOnDay: firstDay,
      latestOnDay: latestDay,
    });
}

/**
 * What an hour may cost without a question: less than five times, and more than a fifth, of what it cost the same person
 * before, else afterwards, else of what stood for that day or some other person's costs. 0 is nobody's slip, and nothing
 * to go by.
 * @throws HOUR_COST_FAR
 */
export function checkNear(
  person: { readonly id: string; readonly name: string },
  asked: { readonly fromDay: LocalDay; readonly hourMinor: number },
  costs: readonly HourCost[],
): void {
  const { fromDay, hourMinor } = asked;
  const paid = costs.filter((c) => c.hourMinor > 0);
  const own = paid.filter((c) => c.personId === person.id && c.fromDay !== fromDay);
  const before = own.findLast((c) => c.fromDay < fromDay) ?? own[0];
  const times = (c: HourCost): number => Math.max(hourMinor / c.hourMinor, c.hourMinor / hourMinor);
  const near = (before ? [before] : paid).toSorted((a, b) => times(a) - times(b))[0];
  if (near && hourMinor > 0 && times(near) >= FAR_TIMES)
    refuse('HOUR_COST_FAR', { name: person.name, hourMinor, nearMinor: near.hourMinor });
}
