import { type DayRow, daysBetween } from '../bays/rules/hours.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { LocalDay } from '../shared/units.ts';
import { dayRuns } from '../views/keptDays.ts';
import { type DaySums, recordedDays } from '../views/recordedDays.ts';
import { shopIfSetUp } from '../views/shop.ts';
import type { Broken, Check } from './check.ts';

/** What is kept of past days against what their records come to. */
export const figuresChecks: readonly Check[] = [
  {
    name: 'figures.kept',
    run: (db) => {
      const zone = shopIfSetUp(db)?.zone;
      const span = oneRow<Span>(db, SPAN);
      if (!zone || !span?.fromDay || !span.toDay) return [];
      const days = daysBetween(span.fromDay, span.toDay, zone);
      return dayRuns(db, days, span.endMin)
        .filter((run) => run.kept)
        .flatMap((run) => chunksOf(run.days))
        .flatMap((some) => wrong(db, span.endMin, some));
    },
  },
];

type Span = { readonly fromDay: LocalDay | null; readonly toDay: LocalDay | null; readonly endMin: number };
const SPAN = 'SELECT min(day) AS fromDay, max(day) AS toDay, max(end_min) AS endMin FROM kept_day';

const KEPT: Readonly<Record<keyof DaySums, string>> = {
  hours: `SELECT day, place, attended_min AS attendedMin, cure_min AS cureMin, waiting_min AS waitingMin,
      blocked_min AS blockedMin, idle_min AS idleMin, worked_ms AS workedMs
    FROM kept_hours WHERE day BETWEEN :fromDay AND :toDay`,
  honesty: `SELECT day, sorted_by AS sortedBy, key, finished, stages, estimated_min AS estimatedMin, actual_ms AS actualMs,
      within, over_ms AS overMs, under_ms AS underMs
    FROM kept_honesty WHERE day BETWEEN :fromDay AND :toDay`,
  furthest: `SELECT day, stage_id AS stageId, done_ms AS doneMs, far FROM kept_furthest WHERE day BETWEEN :fromDay AND :toDay`,
};
type Row = Readonly<Record<string, string | number>> & { readonly day: LocalDay };

/** So many days are worked out at once. */
const AT_ONCE = 90;

function chunksOf(days: readonly DayRow[]): readonly (readonly DayRow[])[] {
  return Array.from({ length: Math.ceil(days.length / AT_ONCE) }, (_, i) =>
    days.slice(i * AT_ONCE, (i + 1) * AT_ONCE),
  );
}

/** A file has no present of its own: every kept day was over when it was written in. */
function wrong(db: ReadDb, endMin: number, days: readonly DayRow[]): readonly Broken[] {
  const again = recordedDays(db, endMin * 60_000, days);
  const range = { fromDay: days[0]?.day, toDay: days.at(-1)?.day };
  return (Object.keys(KEPT) as (keyof DaySums)[]).flatMap((what) => {
    const kept = byDay(allRows<Row>(db, KEPT[what], range));
    const recorded = byDay(again[what] as unknown as readonly Row[]);
    return days
      .filter(({ day }) => (kept.get(day) ?? '') !== (recorded.get(day) ?? ''))
      .map(({ day }) => ({ day, what }));
  });
}

/** The rows of each day as one text, whatever their order and that of their fields. */
function byDay(rows: readonly Row[]): ReadonlyMap<LocalDay, string> {
  const texts = rows.map((row) => [row.day, JSON.stringify(Object.entries(row).sort())] as const);
  const days = Map.groupBy(texts, ([day]) => day);
  return new Map(
    [...days].map(([day, of]) => [
      day,
      of
        .map(([, text]) => text)
        .sort()
        .join('\n'),
    ]),
  );
}
