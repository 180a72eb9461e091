import type { Manner } from '#core/shared/text/manner.ts';
import { dayText, monthText } from '#core/shared/text/when.ts';
import { isoWeek } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { PeriodKind } from '#core/shared/views/figures.ts';
import type { ColumnHead } from '../../ui/charts/heads.ts';

type Period = { readonly day: LocalDay; readonly toDay: LocalDay };

/** What stands at a period, short enough for a column: `48` for a week, `Nov` of its year for a month, `25` of its month for a day. */
export function periodHead(manner: Manner, { day }: Pick<Period, 'day'>, by: PeriodKind): ColumnHead {
  if (by === 'week') return { head: isoWeek(day).slice(-2) };
  const month = monthText(manner, day);
  return by === 'month'
    ? { head: month, group: day.slice(0, 4) }
    : { head: String(Number(day.slice(8))), group: month };
}

/** The days of a period in words, the year only where it is not the year of `today`: `Mon 9 Nov – Sun 15 Nov`. */
export function periodText(manner: Manner, { day, toDay }: Period, today: LocalDay): string {
  const last = dayText(manner, toDay, today);
  return day === toDay ? last : `${dayText(manner, day, today)} – ${last}`;
}
