import { calendarOf, FAR_MIN, lastAtOrBelow, openBetween, type Span } from '../bays/rules/calendar.ts';
import type { DayRow } from '../bays/rules/hours.ts';
import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { Period } from '../figures/rules/periods.ts';
import type { LocalDay } from '../shared/units.ts';

/** Neighbouring days that are all kept and still hold, or all are not: those are worked out from the records. */
export type DayRun = { readonly kept: boolean; readonly days: readonly DayRow[] };
/** What a run of days has of a period, the number of the period with it. */
export type Cut = Period & { readonly i: number };

type Kept = { readonly day: LocalDay; readonly startMin: number; readonly endMin: number };
const KEPT = `SELECT day, start_min AS startMin, end_min AS endMin FROM kept_day
  WHERE day BETWEEN :fromDay AND :toDay AND end_min <= :nowMin`;

/** The days in runs, in order. A day that is kept counts once it is over, and as long as the zone has it as it had. */
export function dayRuns(db: ReadDb, days: readonly DayRow[], nowMin: number): readonly DayRun[] {
  const holding = keptDays(db, days, nowMin);
  const runs: { readonly kept: boolean; readonly days: DayRow[] }[] = [];
  for (const row of days) {
    const kept = holding.has(row.day);
    const last = runs.at(-1);
    if (last?.kept === kept) last.days.push(row);
    else runs.push({ kept, days: [row] });
  }
  return runs;
}

/** Which of the days are kept and still hold. */
export function keptDays(db: ReadDb, days: readonly DayRow[], nowMin: number): ReadonlySet<LocalDay> {
  const [fromDay, toDay] = [days[0]?.day ?? '', days.at(-1)?.day ?? ''];
  const kept = new Map(allRows<Kept>(db, KEPT, { fromDay, toDay, nowMin }).map((row) => [row.day, row]));
  if (kept.size === 0) return new Set();
  const stale = calendarOf(staleSpans(db));
  const holds = ({ day, startMin, endMin }: DayRow): boolean => {
    const row = kept.get(day);
    return row?.startMin === startMin && row.endMin === endMin && openBetween(stale, startMin, endMin) === 0;
  };
  return new Set(days.filter(holds).map((d) => d.day));
}

/**
 * What the change took away, and all that the job has on record: when its car was there, its stages with what dries after
 * them, and its work. One that is still going on may reach as far as now.
 */
const STALE = `SELECT min(s.from_min, coalesce(j.arrived_ms / 60000, ${FAR_MIN}), coalesce(g.from_min, ${FAR_MIN}), coalesce(w.from_min, ${FAR_MIN})) AS startMin,
    max(s.to_min, iif(j.arrived_ms IS NULL, -${FAR_MIN}, coalesce(coalesce(j.collected_ms, j.ended_ms) / 60000 + 1, ${FAR_MIN})),
      coalesce(g.to_min, -${FAR_MIN}), coalesce(w.to_min, -${FAR_MIN})) AS endMin
  FROM kept_stale s LEFT JOIN job j ON j.id = s.job_id
  LEFT JOIN (SELECT job_id, min(coalesce(started_ms, done_ms)) / 60000 AS from_min, max(CASE
      WHEN done_ms IS NOT NULL THEN done_ms / 60000 + dwell_min + 1 WHEN started_ms IS NULL THEN -${FAR_MIN}
      WHEN state = 'dropped' THEN started_ms / 60000 + p50_min + dwell_min + 1 ELSE ${FAR_MIN} END) AS to_min
    FROM job_stage WHERE job_id IN (SELECT job_id FROM kept_stale) GROUP BY job_id) g ON g.job_id = s.job_id
  LEFT JOIN (SELECT t.job_id, min(k.start_ms) / 60000 AS from_min, max(coalesce(k.end_ms / 60000 + 1, ${FAR_MIN})) AS to_min
    FROM job_stage t CROSS JOIN stage_work k ON k.stage_id = t.id
    WHERE t.job_id IN (SELECT job_id FROM kept_stale) GROUP BY t.job_id) w ON w.job_id = s.job_id
  WHERE EXISTS (SELECT 1 FROM kept_day)`;

/** Stretches of time whose kept days no longer hold; none where no day is kept. */
export function staleSpans(db: ReadDb): readonly Span[] {
  return allRows<Span>(db, STALE).filter((s) => s.startMin < s.endMin);
}

/** The periods as far as the days of a run reach into them. */
export function cutsOf(days: readonly DayRow[], periods: readonly Period[]): readonly Cut[] {
  const [first, last] = [days[0], days.at(-1)];
  if (!first || !last) return [];
  const starts = periods.map((p) => p.startMin);
  const from = lastAtOrBelow(starts, first.startMin);
  return periods.slice(from, lastAtOrBelow(starts, last.startMin) + 1).map((p, k): Cut => {
    const begins = p.startMin < first.startMin ? first : p;
    const ends = p.endMin > last.endMin ? { toDay: last.day, endMin: last.endMin } : p;
    return {
      ...{ i: from + k, day: begins.day, startMin: begins.startMin },
      ...{ toDay: ends.toDay, endMin: ends.endMin },
    };
  });
}

/** Cuts as the kept tables are asked about them: `[i, first day, last day]`. */
export function asPieces(cuts: readonly Cut[]): string {
  return JSON.stringify(cuts.map(({ i, day, toDay }) => [i, day, toDay]));
}
