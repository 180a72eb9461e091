import type { Manner } from '#core/shared/text/manner.ts';
import { dayText, monthText } from '#core/shared/text/when.ts';
import { isoWeek } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { PeriodKind } from '#core/shared/views/figures.ts';

type Period = { readonly day: LocalDay; readonly toDay: LocalDay };

function headOf(manner: Manner, day: LocalDay, by: PeriodKind, isFirst: boolean): string {
  if (by === 'week') return isoWeek(day).slice(-2);
  const month = monthText(manner, day);
  if (by === 'month') return isFirst || day.slice(5, 7) === '01' ? `${month}\n${day.slice(0, 4)}` : month;
  const number = String(Number(day.slice(8)));
  return isFirst || number === '1' ? `${number}\n${month}` : number;
}

/**
 * What stands at each period, short enough for a column: `48` for a week, `Nov` for a month, `25` for a day. The year of
 * months and the month of days stand on a second line below the first, and wherever another begins.
 */
export function periodHeads(manner: Manner, periods: readonly Period[], by: PeriodKind): readonly string[] {
  return periods.map(({ day }, i) => headOf(manner, day, by, i === 0));
}

/** The days of a period in words, the year only where it is not the year of `today`: `Mon 9 Nov – Sun 15 Nov`. */
export function periodText(manner: Manner, { day, toDay }: Period, today: LocalDay): string {
  const last = dayText(manner, toDay, today);
  return day === toDay ? last : `${dayText(manner, day, today)} – ${last}`;
}
