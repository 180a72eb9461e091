import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId, PersonId, StageId } from '../shared/ids.ts';
import type { EpochMs } from '../shared/units.ts';
import type { PaintCondition } from '../shared/views/figures.ts';
import type { PaintHardness, StageKind } from '../shared/vocabulary.ts';

/** A stage that was finished in a stretch of time, with what was said and what it took. */
export type FinishedWork = {
  readonly stageId: StageId;
  readonly jobId: JobId;
  readonly jobNumber: number;
  readonly kind: StageKind;
  readonly hardness: PaintHardness;
  readonly p50Min: number;
  readonly p80Min: number;
  readonly actualMin: number;
  /** Who worked on it longest. */
  readonly personId: PersonId;
  readonly person: string;
  readonly note: string;
  readonly doneMs: EpochMs;
};

/** Stages finished in `[fromMs, toMs)` that somebody worked on. */
export function finishedWork(db: ReadDb, fromMs: number, toMs: number): readonly FinishedWork[] {
  return allRows<FinishedWork>(
    db,
    `WITH done AS (
       SELECT s.id, s.job_id, s.kind, s.p50_min, s.p80_min, s.note, s.done_ms, w.person_id,
              sum(w.end_ms - w.start_ms) AS mine,
              sum(sum(w.end_ms - w.start_ms)) OVER (PARTITION BY s.id) AS all_ms,
              row_number() OVER (PARTITION BY s.id ORDER BY sum(w.end_ms - w.start_ms) DESC, w.person_id) AS place
       FROM job_stage s JOIN stage_work w ON w.stage_id = s.id
       WHERE s.state = 'done' AND s.done_ms >= :fromMs AND s.done_ms < :toMs AND w.end_ms IS NOT NULL
       GROUP BY s.id, w.person_id)
     SELECT d.id AS stageId, d.job_id AS jobId, j.number AS jobNumber, d.kind, v.hardness, d.p50_min AS p50Min, d.p80_min AS p80Min,
            d.all_ms / 60000.0 AS actualMin, d.person_id AS personId, p.name AS person, d.note, d.done_ms AS doneMs
     FROM done d JOIN job j ON j.id = d.job_id JOIN vehicle v ON v.id = j.vehicle_id JOIN person p ON p.id = d.person_id
     WHERE d.place = 1 ORDER BY d.id`,
    { fromMs, toMs },
  );
}

const CONDITIONS = `SELECT DISTINCT s.job_id AS jobId, coalesce((
    SELECT CASE max(CASE f.severity WHEN 'heavy' THEN 3 WHEN 'moderate' THEN 2 ELSE 1 END)
      WHEN 3 THEN 'heavy' WHEN 2 THEN 'moderate' ELSE 'light' END
    FROM inspection i JOIN finding f ON f.inspection_id = i.id
    WHERE i.job_id = s.job_id AND f.removed_ms IS NULL
      AND f.defect NOT IN ('contamination', 'runs', 'stoneChips', 'clearCoatFailure')
    HAVING count(*) > 0), 'none') AS condition
  FROM job_stage s WHERE s.state = 'done' AND s.done_ms >= :fromMs AND s.done_ms < :toMs`;

/** The worst that was found on the paint of each job with a stage finished in `[fromMs, toMs)`; `none` where nothing was noted. */
export function paintConditions(
  db: ReadDb,
  fromMs: number,
  toMs: number,
): ReadonlyMap<JobId, PaintCondition> {
  type Row = { readonly jobId: JobId; readonly condition: PaintCondition };
  return new Map(allRows<Row>(db, CONDITIONS, { fromMs, toMs }).map((r) => [r.jobId, r.condition]));
}
