import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId, PersonId, StageId } from '../shared/ids.ts';
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
};

/** Stages finished in `[fromMs, toMs)` that somebody worked on. */
export function finishedWork(db: ReadDb, fromMs: number, toMs: number): readonly FinishedWork[] {
  return allRows<FinishedWork>(
    db,
    `WITH done AS (
       SELECT s.id, s.job_id, s.kind, s.p50_min, s.p80_min, s.note, w.person_id,
              sum(w.end_ms - w.start_ms) AS mine,
              sum(sum(w.end_ms - w.start_ms)) OVER (PARTITION BY s.id) AS all_ms,
              row_number() OVER (PARTITION BY s.id ORDER BY sum(w.end_ms - w.start_ms) DESC, w.person_id) AS place
       FROM job_stage s JOIN stage_work w ON w.stage_id = s.id
       WHERE s.state = 'done' AND s.done_ms >= :fromMs AND s.done_ms < :toMs AND w.end_ms IS NOT NULL
       GROUP BY s.id, w.person_id)
     SELECT d.id AS stageId, d.job_id AS jobId, j.number AS jobNumber, d.kind, v.hardness, d.p50_min AS p50Min, d.p80_min AS p80Min,
            d.all_ms / 60000.0 AS actualMin, d.person_id AS personId, p.name AS person, d.note
     FROM done d JOIN job j ON j.id = d.job_id JOIN vehicle v ON v.id = j.vehicle_id JOIN person p ON p.id = d.person_id
     WHERE d.place = 1 ORDER BY d.id`,
    { fromMs, toMs },
  );
}
