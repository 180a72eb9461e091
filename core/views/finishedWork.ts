import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId, PersonId, StageId } from '../shared/ids.ts';
import type { EpochMs } from '../shared/units.ts';
import type { PaintCondition } from '../shared/views/figures.ts';
import type { PaintHardness, StageKind } from '../shared/vocabulary.ts';
import { busiest, byStage } from './stretches.ts';

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
  /** Who worked on it longest; of equals the one whose id comes first. */
  readonly personId: PersonId;
  readonly person: string;
  readonly doneMs: EpochMs;
};

/**
 * A stretch of work on a finished stage, those of one stage together and those of one person on it too. Held by two
 * indexes; they are added up outside, since grouping them here costs several times as much.
 */
type Stretch = Pick<
  FinishedWork,
  'stageId' | 'jobId' | 'kind' | 'p50Min' | 'p80Min' | 'personId' | 'doneMs'
> & {
  readonly ms: number;
};
const STRETCHES = `SELECT s.id AS stageId, s.job_id AS jobId, s.kind, s.p50_min AS p50Min, s.p80_min AS p80Min,
    w.person_id AS personId, s.done_ms AS doneMs, w.end_ms - w.start_ms AS ms
  FROM job_stage s INDEXED BY job_stage_finished CROSS JOIN stage_work w INDEXED BY stage_work_stage ON w.stage_id = s.id
  WHERE s.state = 'done' AND s.done_ms >= :fromMs AND s.done_ms < :toMs AND w.end_ms IS NOT NULL`;
const JOBS = `SELECT j.id, j.number, v.hardness FROM job j JOIN vehicle v ON v.id = j.vehicle_id
  WHERE j.id IN (SELECT s.job_id FROM job_stage s INDEXED BY job_stage_finished
    WHERE s.state = 'done' AND s.done_ms >= :fromMs AND s.done_ms < :toMs)`;
type JobFacts = { readonly id: JobId; readonly number: number; readonly hardness: PaintHardness };

/** Stages finished in `[fromMs, toMs)` that somebody worked on, in order of time. */
export function finishedWork(db: ReadDb, fromMs: number, toMs: number): readonly FinishedWork[] {
  const range = { fromMs, toMs };
  const jobs = new Map(allRows<JobFacts>(db, JOBS, range).map((j) => [j.id, j]));
  const names = new Map(
    allRows<{ id: PersonId; name: string }>(db, 'SELECT id, name FROM person').map((p) => [p.id, p.name]),
  );
  return byStage(allRows<Stretch>(db, STRETCHES, range)).flatMap((stretches): FinishedWork[] => {
    const [first] = stretches;
    const job = first && jobs.get(first.jobId);
    const personId = busiest(stretches);
    if (!first || !job || !personId) return [];
    const { stageId, jobId, kind, p50Min, p80Min, doneMs } = first;
    const ms = stretches.reduce((sum, s) => sum + s.ms, 0);
    return [
      {
        ...{ stageId, jobId, jobNumber: job.number, kind, hardness: job.hardness, p50Min, p80Min },
        ...{ actualMin: ms / 60_000, personId, person: names.get(personId) ?? '', doneMs },
      },
    ];
  });
}

const CONDITIONS = `SELECT i.job_id AS jobId,
    CASE max(CASE f.severity WHEN 'heavy' THEN 3 WHEN 'moderate' THEN 2 ELSE 1 END)
      WHEN 3 THEN 'heavy' WHEN 2 THEN 'moderate' ELSE 'light' END AS condition
  FROM inspection i JOIN finding f ON f.inspection_id = i.id
  WHERE f.removed_ms IS NULL AND f.defect NOT IN ('contamination', 'runs', 'stoneChips', 'clearCoatFailure')
    AND i.job_id IN (SELECT s.job_id FROM job_stage s INDEXED BY job_stage_finished
      WHERE s.state = 'done' AND s.done_ms >= :fromMs AND s.done_ms < :toMs)
  GROUP BY i.job_id`;

/** The worst that was found on the paint of each job with a stage finished in `[fromMs, toMs)`; without a finding none is told. */
export function paintConditions(
  db: ReadDb,
  fromMs: number,
  toMs: number,
): ReadonlyMap<JobId, PaintCondition> {
  type Row = { readonly jobId: JobId; readonly condition: PaintCondition };
  return new Map(allRows<Row>(db, CONDITIONS, { fromMs, toMs }).map((r) => [r.jobId, r.condition]));
}
