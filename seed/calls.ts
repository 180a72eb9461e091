import { addLocalDays, instantOf, isoWeekday, localDayOf } from '../core/shared/time.ts';
import type { LocalDay } from '../core/shared/units.ts';
import { isHoliday, OPEN, ZONE } from './crew.ts';
import type { Draw } from './draw.ts';

const MINUTE = 60_000;
/** More people ring in spring and before winter. */
const SEASON = [0.9, 0.9, 1.05, 1.12, 1.08, 1, 0.95, 0.95, 1, 1.05, 1.05, 0.95];
/** Opening days a week, Saturday counted by its hours. */
const DAYS_A_WEEK = 5.4;

export type Call = { readonly atMs: number; readonly leadDays: number };
type Span = { readonly fromDay: LocalDay; readonly untilMs: number; readonly perWeek: number };

/** When people ring, in opening hours, and how many days ahead they think at the least. */
export function callsOf(span: Span, draw: Draw): readonly Call[] {
  const calls: Call[] = [];
  let due = 0;
  const lastDay = localDayOf(span.untilMs, ZONE);
  for (let day = span.fromDay; day <= lastDay; day = addLocalDays(day, 1)) {
    const hours = OPEN.find((w) => w.weekday === isoWeekday(day));
    if (!hours || isHoliday(day)) continue;
    const open = hours.endMin - hours.startMin;
    due += ((span.perWeek / DAYS_A_WEEK) * (SEASON[Number(day.slice(5, 7)) - 1] ?? 1) * open) / 600;
    // The same number each week, spread by chance over its days: a demo has neither lulls nor rushes of months.
    for (let count = Math.floor(due + draw.random() - 0.5); count > 0; count -= 1) {
      due -= 1;
      const atMs = instantOf(day, hours.startMin + draw.int(5, open - 30), ZONE);
      if (atMs < span.untilMs - 15 * MINUTE) calls.push({ atMs, leadDays: draw.int(1, 7) });
    }
  }
  return calls.toSorted((a, b) => a.atMs - b.atMs);
}
