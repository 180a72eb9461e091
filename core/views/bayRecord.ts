import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { BayId, JobId, PersonId } from '../shared/ids.ts';

/** What really happened in the bays between two instants, in whole minutes since the epoch. */
export type BayRecord = {
  /** Null where the board has no place for the stage: work of a person, but of no bay. */
  readonly bayId: BayId | null;
  readonly jobId: JobId;
  readonly kind: 'attended' | 'cure' | 'occupied' | 'blocked';
  /** Who worked; null where nobody does. */
  readonly personId: PersonId | null;
  readonly startMin: number;
  readonly endMin: number;
};

/**
 * Work counts where the board had its stage as it was written down, else where it has it; a car stands where the board
 * had it, from when it really came until it was really collected, sooner or later than planned. A coat cures for its own
 * time, and no longer. After its last stage in a place a car only blocks it. What runs on is cut at the last whole minute before `nowMs`: SQLite gets every number as a real one, and divides it as such.
 */
export function bayRecords(
  db: ReadDb,
  range: { readonly fromMin: number; readonly toMin: number; readonly nowMs: number },
): readonly BayRecord[] {
  const { fromMin, toMin } = range;
  return allRows<BayRecord>(db, RECORDS, {
    fromMin,
    toMin,
    nowMs: wholeMinuteMs(range.nowMs),
    fromMs: fromMin * 60_000,
    toMs: toMin * 60_000,
  });
}

/** The beginning of the minute. */
export function wholeMinuteMs(ms: number): number {
  return Math.floor(ms / 60_000) * 60_000;
}

/** Where the board had a stage. */
const BAY_OF = '(SELECT p.bay_id FROM placement p WHERE p.stage_id = g.id ORDER BY p.id LIMIT 1)';

/**
 * When a stage without hands stopped curing: when somebody ended it, else after its own time; from then on the car
 * waits for people, whoever has not seen to it. Its own time is its labour, which nobody does, and its dwell.
 */
const CURED = `min(coalesce(g.done_ms, :nowMs), g.started_ms + (g.p50_min + g.dwell_min) * 60000)`;
/** The last minute of a cure, over at the latest when the car was fetched; nor does it begin before the car came. */
const CURED_MIN = `min(CASE WHEN g.crew = 0 THEN ${CURED} / 60000 ELSE g.done_ms / 60000 + g.dwell_min END, t.went_min)`;

/**
 * Stretches of work that reach into the time asked about, one that runs on up to now. One that ends more than a day after
 * that time is in it only if it is longer than a day: without this bound SQLite reads all work since then.
 */
export const WORKED = `SELECT stage_id, person_id, bay_id, start_ms, end_ms FROM stage_work
    WHERE end_ms > :fromMs AND end_ms <= :toMs + 86400000 AND start_ms < :toMs
    UNION ALL SELECT stage_id, person_id, bay_id, start_ms, end_ms FROM stage_work INDEXED BY stage_work_long
    WHERE end_ms - start_ms > 86400000 AND end_ms > :toMs + 86400000 AND start_ms < :toMs
    UNION ALL SELECT stage_id, person_id, bay_id, start_ms, :nowMs FROM stage_work
    WHERE end_ms IS NULL AND start_ms < min(:toMs, :nowMs) AND :nowMs > :fromMs`;

const RECORDS = `WITH there AS MATERIALIZED (
    SELECT id AS job_id, arrived_ms / 60000 AS came_min, coalesce(collected_ms, ended_ms, :nowMs) / 60000 AS went_min
    FROM job WHERE arrived_ms < :toMs AND coalesce(collected_ms, ended_ms, :nowMs) > :fromMs),
  here AS MATERIALIZED (
    SELECT s.bay_id, s.job_id,
           iif(row_number() OVER by_time = 1, t.came_min, max(s.arrive_min, t.came_min)) AS start_min,
           iif(lead(s.id) OVER by_time IS NULL, t.went_min, min(s.leave_min, t.went_min)) AS end_min
    FROM there t JOIN stay s ON s.job_id = t.job_id WINDOW by_time AS (PARTITION BY s.job_id ORDER BY s.arrive_min)),
  worked AS (${WORKED}),
  last AS (
    SELECT h.bay_id, h.job_id, h.start_min, h.end_min,
           max(coalesce(g.done_ms, :nowMs) / 60000 + CASE WHEN g.done_ms IS NULL OR g.crew = 0 THEN 0 ELSE g.dwell_min END) AS over_min
    FROM here h JOIN job_stage g ON g.job_id = h.job_id
    WHERE g.state <> 'dropped' AND ${BAY_OF} = h.bay_id GROUP BY h.bay_id, h.job_id, h.start_min)
  SELECT coalesce(w.bay_id, ${BAY_OF}) AS bayId, g.job_id AS jobId, 'attended' AS kind, w.person_id AS personId,
         w.start_ms / 60000 AS startMin, w.end_ms / 60000 AS endMin
  FROM worked w JOIN job_stage g ON g.id = w.stage_id
  UNION ALL
  SELECT ${BAY_OF}, g.job_id, 'cure', NULL, max(CASE WHEN g.crew = 0 THEN g.started_ms ELSE g.done_ms END / 60000, t.came_min),
         ${CURED_MIN}
  FROM there t CROSS JOIN job_stage g ON g.job_id = t.job_id
  WHERE g.started_ms IS NOT NULL AND (g.crew = 0 OR g.dwell_min > 0) AND (g.crew = 0 OR g.done_ms IS NOT NULL)
    AND g.started_ms < :toMs AND ${CURED_MIN} * 60000 > :fromMs
  UNION ALL
  SELECT bay_id, job_id, 'occupied', NULL, start_min, end_min FROM here WHERE end_min > start_min
  UNION ALL
  SELECT bay_id, job_id, 'blocked', NULL, max(over_min, start_min), end_min FROM last WHERE end_min > max(over_min, start_min)`;
