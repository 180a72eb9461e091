import { addLocalDays, isoWeekday } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';

/** How much of time the board shows: hours, a week, or weeks. */
export const SPANS = ['day', 'week', 'weeks'] as const;
export type Span = (typeof SPANS)[number];
export const DAYS: Readonly<Record<Span, number>> = { day: 1, week: 7, weeks: 28 };

/**
 * The first day that is shown. A day, a week or weeks that were turned to are calendar days, and weeks from a Monday; the
 * week of today begins yesterday at the soonest: on a Friday its days to come are worth more than those that are over.
 */
export function firstDay(turnedTo: LocalDay | null, today: LocalDay, span: Span): LocalDay {
  const day = turnedTo ?? today;
  if (span === 'day') return day;
  const monday = mondayOf(day);
  const yesterday = addLocalDays(today, -1);
  return span === 'week' && turnedTo === null && yesterday > monday ? yesterday : monday;
}

/** Earlier or later by as much as is shown; from a week that begins in its midst, to the calendar week around or after it. */
export function turnedFrom(first: LocalDay, by: 1 | -1, span: Span): LocalDay {
  if (span !== 'week' || mondayOf(first) === first) return addLocalDays(first, by * DAYS[span]);
  return addLocalDays(mondayOf(first), by === 1 ? 7 : 0);
}

function mondayOf(day: LocalDay): LocalDay {
  return addLocalDays(day, 1 - isoWeekday(day));
}
