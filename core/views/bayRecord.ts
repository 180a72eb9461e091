import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { BayId, JobId } from '../shared/ids.ts';

/** What really happened in the bays between two instants, in whole minutes since the epoch. */
export type BayRecord = {
  readonly bayId: BayId;
  readonly jobId: JobId;
  readonly kind: 'attended' | 'cure' | 'occupied' | 'blocked';
  readonly startMin: number;
  readonly endMin: number;
};

/**
 * Work counts where the board had its stage; a car stands where the board had it, from when it really came until it
 * was really collected, sooner or later than planned. After its last stage in a place a car only blocks it. What runs
 * on is cut at `nowMs`.
 */
export function bayRecords(
  db: ReadDb,
  range: { readonly fromMin: number; readonly toMin: number; readonly nowMs: number },
): readonly BayRecord[] {
  return allRows<BayRecord>(
    db,
    `WITH place AS (SELECT stage_id, bay_id, job_id FROM placement GROUP BY stage_id),
     there AS (
       SELECT id AS job_id, arrived_ms / 60000 AS came_min, coalesce(collected_ms, ended_ms, :nowMs) / 60000 AS went_min
       FROM job WHERE arrived_ms < :toMin * 60000 AND coalesce(collected_ms, ended_ms, :nowMs) > :fromMin * 60000),
     here AS (
       SELECT s.bay_id, s.job_id,
              iif(row_number() OVER by_time = 1, t.came_min, max(s.arrive_min, t.came_min)) AS start_min,
              iif(lead(s.id) OVER by_time IS NULL, t.went_min, min(s.leave_min, t.went_min)) AS end_min
       FROM there t JOIN stay s ON s.job_id = t.job_id WINDOW by_time AS (PARTITION BY s.job_id ORDER BY s.arrive_min)),
     last AS (
       SELECT h.bay_id, h.job_id, h.start_min, h.end_min,
              max(coalesce(g.done_ms, :nowMs) / 60000 + CASE WHEN g.done_ms IS NULL THEN 0 ELSE g.dwell_min END) AS over_min
       FROM here h JOIN place p ON p.job_id = h.job_id AND p.bay_id = h.bay_id JOIN job_stage g ON g.id = p.stage_id
       WHERE g.state <> 'dropped' GROUP BY h.bay_id, h.job_id, h.start_min)
     SELECT p.bay_id AS bayId, p.job_id AS jobId, 'attended' AS kind, w.start_ms / 60000 AS startMin,
            coalesce(w.end_ms, :nowMs) / 60000 AS endMin
     FROM stage_work w JOIN place p ON p.stage_id = w.stage_id
     WHERE w.start_ms < :toMin * 60000 AND coalesce(w.end_ms, :nowMs) > :fromMin * 60000
     UNION ALL
     SELECT p.bay_id, p.job_id, 'cure', CASE WHEN g.crew = 0 THEN g.started_ms ELSE g.done_ms END / 60000,
            CASE WHEN g.crew = 0 THEN coalesce(g.done_ms, :nowMs) ELSE g.done_ms END / 60000 + CASE WHEN g.crew = 0 THEN 0 ELSE g.dwell_min END
     FROM job_stage g JOIN place p ON p.stage_id = g.id
     WHERE g.started_ms IS NOT NULL AND (g.crew = 0 OR (g.done_ms IS NOT NULL AND g.dwell_min > 0))
       AND g.started_ms < :toMin * 60000 AND coalesce(g.done_ms, :nowMs) + g.dwell_min * 60000 > :fromMin * 60000
     UNION ALL
     SELECT bay_id, job_id, 'occupied', start_min, end_min FROM here WHERE end_min > start_min
     UNION ALL
     SELECT bay_id, job_id, 'blocked', max(over_min, start_min), end_min FROM last WHERE end_min > max(over_min, start_min)`,
    range,
  );
}
