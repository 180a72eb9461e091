import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { StageKind } from '../shared/vocabulary.ts';
import { busiest, byStage } from './stretches.ts';

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

const DONE = "state = 'done' AND done_ms IS NOT NULL AND estimated_min > 0";
/** Finished stages, newest first, at most `most`, after leaving out the newest `skip`. Held by the index job_stage_done. */
const LATEST = `WITH latest AS (
  SELECT id, job_id, kind, estimated_min, done_ms FROM job_stage WHERE ${DONE}
  ORDER BY done_ms DESC, id DESC LIMIT :most OFFSET :skip)`;
type Range = { readonly most: number; readonly skip: number };

/**
 * A stretch of work on one of the latest stages, those of one stage together. They are added up outside: grouping them
 * here costs five times as much, and sorting those of a stage by person half as much again.
 */
type Stretch = Pick<HistoryRow, 'jobId' | 'kind' | 'estimatedMin' | 'doneMs'> & {
  readonly stageId: string;
  readonly personId: string;
  readonly ms: number;
};
const STRETCHES = `${LATEST}
SELECT l.id AS stageId, l.job_id AS jobId, l.kind, l.estimated_min AS estimatedMin, l.done_ms AS doneMs,
  w.person_id AS personId, w.end_ms - w.start_ms AS ms
FROM latest l CROSS JOIN stage_work w ON w.stage_id = l.id
WHERE w.end_ms IS NOT NULL ORDER BY l.done_ms DESC, l.id DESC`;

type JobFacts = { readonly id: string; readonly number: number; readonly condition: string };
const JOBS = `${LATEST}, of AS MATERIALIZED (SELECT DISTINCT job_id FROM latest)
SELECT j.id, j.number, coalesce((
  SELECT CASE max(CASE f.severity WHEN 'heavy' THEN 3 WHEN 'moderate' THEN 2 ELSE 1 END)
    WHEN 3 THEN 'heavy' WHEN 2 THEN 'moderate' WHEN 1 THEN 'light' END
  FROM inspection i CROSS JOIN finding f ON f.inspection_id = i.id
  WHERE i.job_id = j.id AND f.removed_ms IS NULL
    AND f.defect NOT IN ('contamination', 'runs', 'stoneChips', 'clearCoatFailure')), j.purpose) AS condition
FROM of CROSS JOIN job j ON j.id = of.job_id`;

const NAMES = 'SELECT id, name FROM person';

/**
 * Finished stages with their worked minutes (all people and stretches added), the person who worked most on each,
 * and the job's paint condition: the worst severity found, else what the job was for. Newest first, at most `most`,
 * after leaving out the newest `skip`; a stage that nobody worked on is left out.
 */
export function stageHistory(db: ReadDb, most: number, skip = 0): readonly HistoryRow[] {
  const range: Range = { most, skip };
  const jobs = new Map(allRows<JobFacts>(db, JOBS, range).map((row) => [row.id, row]));
  const names = new Map(allRows<{ id: string; name: string }>(db, NAMES).map((row) => [row.id, row.name]));
  return byStage(allRows<Stretch>(db, STRETCHES, range)).flatMap((stretches): HistoryRow[] => {
    const [first] = stretches;
    const job = first && jobs.get(first.jobId);
    const ms = stretches.reduce((sum, s) => sum + s.ms, 0);
    if (!first || !job || ms <= 0) return [];
    const { jobId, kind, estimatedMin, doneMs } = first;
    const technician = busiest(stretches) ?? '';
    const person = names.get(technician) ?? '';
    const { number: jobNumber, condition } = job;
    return [
      { jobId, jobNumber, kind, technician, person, condition, estimatedMin, actualMin: ms / 60_000, doneMs },
    ];
  });
}

const FINISHED_STAGES = `SELECT count(*) AS n FROM job_stage WHERE ${DONE}`;

/** How many stages are finished by now. */
export function finishedStages(db: ReadDb): number {
  return oneRow<{ readonly n: number }>(db, FINISHED_STAGES)?.n ?? 0;
}

export type FinishedJobRow = { readonly p80Min: number; readonly actualMin: number };

/**
 * Jobs whose every stage is finished or dropped: the P80 that was promised (of the estimate the customer agreed to, else
 * of the newest) and the minutes they took. The look counts where the estimate has it in: before anybody had seen the
 * paint. A job stopped half way kept or broke no promise and is left out.
 */
const FINISHED = `
SELECT e.p80_min AS p80Min, sum(w.ms) / 60000.0 AS actualMin FROM job j
JOIN estimate e ON e.id = coalesce(
  (SELECT o.estimate_id FROM quote q JOIN quote_option o ON o.quote_id = q.id AND o.letter = q.accepted_letter
   WHERE q.job_id = j.id AND q.state = 'accepted'),
  (SELECT id FROM estimate WHERE job_id = j.id ORDER BY version DESC LIMIT 1))
JOIN (SELECT s.job_id, s.kind = 'inspection' AS look, sum(x.end_ms - x.start_ms) AS ms FROM stage_work x
  JOIN job_stage s ON s.id = x.stage_id WHERE x.end_ms IS NOT NULL GROUP BY 1, 2) w
  ON w.job_id = j.id AND (w.look = 0 OR e.basis = 'provisional')
WHERE j.state IN ('ready', 'collected') AND j.stopped_ms IS NULL
  AND NOT EXISTS (SELECT 1 FROM job_stage s WHERE s.job_id = j.id AND s.state IN ('planned', 'inWork', 'paused'))
GROUP BY j.id ORDER BY j.id DESC LIMIT :most`;

export function finishedJobs(db: ReadDb, most: number): readonly FinishedJobRow[] {
  return allRows<FinishedJobRow>(db, FINISHED, { most });
}
