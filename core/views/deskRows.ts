import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId } from '../shared/ids.ts';
import { isoWeekday, minuteOf } from '../shared/time.ts';
import type { EpochMin, EpochMs, LocalDay, Minor } from '../shared/units.ts';
import type { DeskCar, RailBar, WaitingAnswer } from '../shared/views/desk.ts';
import type { StageKind, StageState } from '../shared/vocabulary.ts';
import { owedOf } from './jobOwed.ts';
import { LIKELY_MIN } from './promiseFacts.ts';

/** What the desk needs of a job that matters today, straight from the tables. */
export type DeskRow = Omit<DeskCar, 'bars'> & {
  readonly arrivedMs: EpochMs | null;
  readonly readyMs: EpochMs | null;
  readonly likelyMin: EpochMin | null;
  readonly bay: string;
  readonly owedMinor: Minor | null;
};
export type DeskStageRow = {
  readonly jobId: JobId;
  readonly stageId: string;
  readonly kind: StageKind;
  readonly state: StageState;
  readonly crew: number;
  readonly panels: string;
  readonly panelsDone: string;
  readonly mu: number;
  readonly sigma: number;
  readonly p50Min: number;
  readonly p80Min: number;
  readonly dwellMin: number;
  readonly startedMs: number | null;
  readonly attendedMs: number;
  readonly who: string;
};

const JOBS = `SELECT j.id AS jobId, j.number, j.state, j.purpose, c.name AS customer, c.phone, v.make_model AS makeModel,
    v.body, j.drop_off_min AS dropOffMin, j.pick_up_min AS pickUpMin, j.promise_ppm AS promisedPpm,
    j.arrived_ms AS arrivedMs, j.ready_ms AS readyMs,
    ${LIKELY_MIN} AS likelyMin,
    coalesce((SELECT b.name FROM stay s JOIN bay b ON b.id = s.bay_id WHERE s.job_id = j.id
      ORDER BY (s.arrive_min <= :nowMin AND s.leave_min > :nowMin) DESC, s.arrive_min DESC LIMIT 1), '') AS bay,
    ${owedOf('j.id')} AS owedMinor
  FROM job j JOIN customer c ON c.id = j.customer_id JOIN vehicle v ON v.id = j.vehicle_id
  WHERE j.state IN ('booked','here','inWork','ready')
    OR (j.state = 'collected' AND j.collected_ms >= :fromMs AND j.collected_ms < :toMs)
  ORDER BY coalesce(j.drop_off_min, 0), j.number`;
const STAGES = `SELECT s.job_id AS jobId, s.id AS stageId, s.kind, s.state, s.crew, s.panels, s.mu, s.sigma,
    s.p50_min AS p50Min, s.p80_min AS p80Min, s.dwell_min AS dwellMin, s.started_ms AS startedMs,
    (SELECT json_group_array(d.panel) FROM stage_panel d WHERE d.stage_id = s.id) AS panelsDone,
    coalesce((SELECT sum(coalesce(w.end_ms, :nowMs) - w.start_ms) FROM stage_work w WHERE w.stage_id = s.id), 0) AS attendedMs,
    coalesce((SELECT json_group_array(DISTINCT p.name) FROM stage_work w JOIN person p ON p.id = w.person_id
      WHERE w.stage_id = s.id AND w.end_ms IS NULL), '[]') AS who
  FROM job_stage s JOIN job j ON j.id = s.job_id
  WHERE j.state IN ('booked','here','inWork','ready') AND s.state <> 'dropped' ORDER BY s.job_id, s.seq`;
const BARS = `SELECT s.job_id AS jobId, s.kind AS stage, CASE WHEN w.end_ms IS NULL THEN 'work' ELSE 'done' END AS form,
    max(w.start_ms, :fromMs) AS startMs, min(coalesce(w.end_ms, :nowMs), :toMs) AS endMs
  FROM stage_work w JOIN job_stage s ON s.id = w.stage_id
  WHERE w.start_ms < :toMs AND (w.end_ms >= :fromMs OR (w.end_ms IS NULL AND :nowMs >= :fromMs))
  UNION ALL
  SELECT s.job_id, s.kind, 'cure', max(s.started_ms, :fromMs), min(s.started_ms + (s.p50_min + s.dwell_min) * 60000, :toMs)
  FROM job_stage s WHERE s.crew = 0 AND s.state = 'inWork' AND s.started_ms IS NOT NULL
    AND s.started_ms + (s.p50_min + s.dwell_min) * 60000 > :fromMs
  UNION ALL
  SELECT p.job_id, s.kind, CASE WHEN p.person_id IS NULL THEN 'cure' ELSE 'planned' END,
    max(p.start_min * 60000, :nowMs), min(p.dwell_end_min * 60000, :toMs)
  FROM placement p JOIN job_stage s ON s.id = p.stage_id
  WHERE s.state IN ('planned','paused','inWork') AND p.start_min * 60000 < :toMs AND p.dwell_end_min * 60000 > :nowMs
    AND NOT (s.crew = 0 AND s.state = 'inWork')
  ORDER BY 1, 4`;
const WAITING = `SELECT j.id AS jobId, j.number, c.name AS customer, c.phone, what, sinceMs FROM (
    SELECT job_id AS jobId, 'quoteOpen' AS what, coalesce(sent_ms, made_ms) AS sinceMs FROM quote q WHERE state = 'sent'
      AND NOT EXISTS (SELECT 1 FROM quote a WHERE a.job_id = q.job_id AND a.state = 'accepted' AND a.version < q.version)
    UNION ALL SELECT q.job_id, 'testSpot', coalesce(q.sent_ms, q.made_ms) FROM quote q WHERE q.state = 'sent'
      AND EXISTS (SELECT 1 FROM quote a WHERE a.job_id = q.job_id AND a.state = 'accepted' AND a.version < q.version)
    UNION ALL SELECT id, 'enquiryOpen', created_ms FROM job WHERE state = 'enquiry'
    UNION ALL SELECT id, 'noShow', ended_ms FROM job WHERE state = 'noShow' AND ended_ms > :sinceMs) w
  JOIN job j ON j.id = w.jobId JOIN customer c ON c.id = j.customer_id
  WHERE j.state IN ('enquiry','quoted','booked','here','inWork','noShow') ORDER BY sinceMs LIMIT 40`;

type Day = { readonly fromMs: number; readonly toMs: number; readonly nowMs: number };

export function deskJobs(db: ReadDb, day: Day): DeskRow[] {
  const { fromMs, toMs, nowMs } = day;
  return allRows<DeskRow>(db, JOBS, { fromMs, toMs, nowMin: Math.floor(nowMs / 60_000) });
}

/** Whether the shop still owes the car by a promised time. */
export function isOpenPromise(j: DeskRow): boolean {
  return j.pickUpMin !== null && ['booked', 'here', 'inWork'].includes(j.state);
}

export function deskStages(db: ReadDb, nowMs: number): DeskStageRow[] {
  return allRows<DeskStageRow>(db, STAGES, { nowMs });
}

/** Bars of today's rail by job: what was worked, what runs, what is planned from now on. */
export function deskBars(db: ReadDb, day: Day): ReadonlyMap<JobId, RailBar[]> {
  const by = new Map<JobId, RailBar[]>();
  for (const { jobId, ...bar } of allRows<RailBar & { jobId: JobId }>(db, BARS, day)) {
    if (bar.endMs <= bar.startMs) continue;
    by.set(jobId, [...(by.get(jobId) ?? []), bar]);
  }
  return by;
}

/** People who wait for an answer, longest first; a no-show counts for two weeks. */
export function deskWaiting(db: ReadDb, nowMs: number): WaitingAnswer[] {
  return allRows<WaitingAnswer>(db, WAITING, { sinceMs: nowMs - 14 * 86_400_000 });
}

const KEPT = `SELECT count(*) AS due, coalesce(sum(ready_ms IS NOT NULL AND ready_ms <= pick_up_min * 60000), 0) AS inTime
  FROM (SELECT ready_ms, pick_up_min FROM job WHERE pick_up_min * 60000 < :nowMs
    AND state IN ('here','inWork','ready','collected') ORDER BY pick_up_min DESC LIMIT 100)`;

/** Of the last promises that came due: how many were ready in time. */
export function deskKept(db: ReadDb, nowMs: number): { readonly due: number; readonly inTime: number } {
  return oneRow<{ due: number; inTime: number }>(db, KEPT, { nowMs }) ?? { due: 0, inTime: 0 };
}

/** Opening spans of the shop on a local day, in minutes since the epoch; none when it is closed. */
export function openSpans(
  db: ReadDb,
  day: LocalDay,
  zone: string,
): { startMin: EpochMin; endMin: EpochMin }[] {
  const shut = oneRow(
    db,
    'SELECT 1 AS yes FROM closure WHERE bay_id IS NULL AND from_day <= :day AND to_day >= :day',
    { day },
  );
  if (shut) return [];
  return allRows<{ openMin: number; closeMin: number }>(
    db,
    `SELECT open_min AS openMin, close_min AS closeMin FROM opening_hours
     WHERE kind = 'shop' AND weekday = :weekday ORDER BY open_min`,
    { weekday: isoWeekday(day) },
  ).map((s) => ({ startMin: minuteOf(day, s.openMin, zone), endMin: minuteOf(day, s.closeMin, zone) }));
}
