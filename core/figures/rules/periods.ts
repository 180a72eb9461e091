import type { DayRow } from '#core/bays/rules/hours.ts';
import { isoWeek } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { PeriodKind } from '#core/shared/views/figures.ts';

/** Days that are told together; both days are included, the minutes are half-open. */
export type Period = {
  readonly day: LocalDay;
  readonly toDay: LocalDay;
  readonly startMin: number;
  readonly endMin: number;
};

/** What a day belongs to: itself, its ISO week, its calendar month. */
export function periodOf(day: LocalDay, by: PeriodKind): string {
  return by === 'day' ? day : by === 'week' ? isoWeek(day) : day.slice(0, 7);
}

/** The days in their periods, in order; the first and the last are as short as the range has them. No days: none. */
export function periodsOf(days: readonly DayRow[], by: PeriodKind): readonly Period[] {
  return [...Map.groupBy(days, (row) => periodOf(row.day, by)).values()].flatMap((rows) => {
    const [first, last] = [rows[0], rows.at(-1)];
    return first && last
      ? [{ day: first.day, toDay: last.day, startMin: first.startMin, endMin: last.endMin }]
      : [];
  });
}
