import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId } from '../shared/ids.ts';
import type { Ppm } from '../shared/units.ts';
import type { StageKind, StageState } from '../shared/vocabulary.ts';

type Row = {
  readonly kind: StageKind;
  readonly state: StageState;
  readonly sharePpm: number | null;
  readonly workedMs: number;
};

/** What was done of each stage of a job, in the order of work. */
export type StageDoneRow = { readonly kind: StageKind; readonly workedMin: number; readonly donePpm: Ppm };

const STAGES = `SELECT s.kind, s.state, h.share_ppm AS sharePpm,
    coalesce((SELECT sum(w.end_ms - w.start_ms) FROM stage_work w WHERE w.stage_id = s.id AND w.end_ms IS NOT NULL), 0)
      AS workedMs
  FROM job_stage s LEFT JOIN stage_share h ON h.stage_id = s.id WHERE s.job_id = :jobId ORDER BY s.seq`;

/**
 * Attended minutes and finished share per stage. A named share counts (the job was stopped half way); else a stage
 * that is done is whole and any other nothing.
 */
export function stagesDone(db: ReadDb, jobId: JobId): StageDoneRow[] {
  return allRows<Row>(db, STAGES, { jobId }).map((row) => ({
    kind: row.kind,
    workedMin: Math.round(row.workedMs / 60_000),
    donePpm: (row.sharePpm ?? (row.state === 'done' ? 1_000_000 : 0)) as Ppm,
  }));
}

/** True when shares were named because the job was stopped half way. */
export function wasStopped(db: ReadDb, jobId: JobId): boolean {
  const sql = `SELECT 1 FROM stage_share h JOIN job_stage s ON s.id = h.stage_id WHERE s.job_id = :jobId LIMIT 1`;
  return oneRow(db, sql, { jobId }) !== undefined;
}
