import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { StageKind } from '../shared/vocabulary.ts';

/** A finished stage as learning takes it, with what the evidence shows. */
export type HistoryRow = {
  readonly jobId: string;
  readonly jobNumber: number;
  readonly kind: StageKind;
  readonly technician: string;
  readonly person: string;
  readonly condition: string;
  readonly estimatedMin: number;
  readonly actualMin: number;
  readonly doneMs: number;
};

/**
 * Finished stages with their worked minutes (all people and stretches added), the person who worked most on each,
 * and the job's paint condition: the worst severity found, else what the job was for.
 */
const HISTORY = `
WITH latest AS (
  SELECT id, job_id, kind, estimated_min, done_ms FROM job_stage
  WHERE state = 'done' AND done_ms IS NOT NULL AND estimated_min > 0
  ORDER BY done_ms DESC, id DESC LIMIT :most OFFSET :skip),
worked AS (
  SELECT w.stage_id, w.person_id, sum(w.end_ms - w.start_ms) AS ms FROM stage_work w
  JOIN latest l ON l.id = w.stage_id WHERE w.end_ms IS NOT NULL GROUP BY w.stage_id, w.person_id),
summed AS (SELECT stage_id, person_id, max(ms) AS top, sum(ms) AS ms FROM worked GROUP BY stage_id),
seen AS (
  SELECT i.job_id, max(CASE f.severity WHEN 'heavy' THEN 3 WHEN 'moderate' THEN 2 ELSE 1 END) AS worst
  FROM finding f JOIN inspection i ON i.id = f.inspection_id
  WHERE f.removed_ms IS NULL AND f.defect NOT IN ('contamination', 'runs', 'stoneChips', 'clearCoatFailure')
  GROUP BY i.job_id)
SELECT l.job_id AS jobId, j.number AS jobNumber, l.kind, s.person_id AS technician, p.name AS person,
  CASE seen.worst WHEN 3 THEN 'heavy' WHEN 2 THEN 'moderate' WHEN 1 THEN 'light' ELSE j.purpose END AS condition,
  l.estimated_min AS estimatedMin, s.ms / 60000.0 AS actualMin, l.done_ms AS doneMs
FROM latest l JOIN summed s ON s.stage_id = l.id JOIN job j ON j.id = l.job_id
JOIN person p ON p.id = s.person_id LEFT JOIN seen ON seen.job_id = l.job_id
WHERE s.ms > 0 ORDER BY l.done_ms DESC`;

/** Finished stages, newest first, at most `most`, after leaving out the newest `skip`. */
export function stageHistory(db: ReadDb, most: number, skip = 0): readonly HistoryRow[] {
  return allRows<HistoryRow>(db, HISTORY, { most, skip });
}

const FINISHED_STAGES = `SELECT count(*) AS n FROM job_stage
  WHERE state = 'done' AND done_ms IS NOT NULL AND estimated_min > 0`;

/** How many stages are finished by now. */
export function finishedStages(db: ReadDb): number {
  return oneRow<{ readonly n: number }>(db, FINISHED_STAGES)?.n ?? 0;
}

export type FinishedJobRow = { readonly p80Min: number; readonly actualMin: number };

/**
 * Jobs whose every stage is finished or dropped: the P80 that was promised (of the estimate the customer agreed to, else
 * of the newest) and the minutes they took. A job stopped half way kept or broke no promise and is left out.
 */
const FINISHED = `
SELECT e.p80_min AS p80Min, w.ms / 60000.0 AS actualMin FROM job j
JOIN estimate e ON e.id = coalesce(
  (SELECT o.estimate_id FROM quote q JOIN quote_option o ON o.quote_id = q.id AND o.letter = q.accepted_letter
   WHERE q.job_id = j.id AND q.state = 'accepted'),
  (SELECT id FROM estimate WHERE job_id = j.id ORDER BY version DESC LIMIT 1))
JOIN (SELECT s.job_id, sum(x.end_ms - x.start_ms) AS ms FROM stage_work x JOIN job_stage s ON s.id = x.stage_id
  WHERE x.end_ms IS NOT NULL GROUP BY s.job_id) w ON w.job_id = j.id
WHERE j.state IN ('ready', 'collected') AND j.stopped_ms IS NULL
  AND NOT EXISTS (SELECT 1 FROM job_stage s WHERE s.job_id = j.id AND s.state IN ('planned', 'inWork', 'paused'))
ORDER BY j.id DESC LIMIT :most`;

export function finishedJobs(db: ReadDb, most: number): readonly FinishedJobRow[] {
  return allRows<FinishedJobRow>(db, FINISHED, { most });
}
