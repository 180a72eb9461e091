import { eq, sql } from 'drizzle-orm';
import { allRows, oneRow, prepared } from '../../db/prepared.ts';
import { conflictSeen, placement, planState } from '../../db/schema/bays.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import type { JobId, PersonId, StageId } from '../../shared/ids.ts';
import type { EpochMin, EpochMs } from '../../shared/units.ts';
import type { JobPlanView, PiecePlan } from '../../shared/views/plan.ts';
import { liftStays, setStays, staysOf } from './stays.ts';

const revision = prepared((db) => db.orm.select().from(planState).prepare());
const countRevision = prepared((db) =>
  db.orm
    .update(planState)
    .set({ revision: sql`${planState.revision} + 1` })
    .prepare(),
);
const addPlacement = prepared((db) =>
  db.orm
    .insert(placement)
    .values({
      jobId: sql.placeholder('jobId'),
      stageId: sql.placeholder('stageId'),
      bayId: sql.placeholder('bayId'),
      personId: sql.placeholder('personId'),
      startMin: sql.placeholder('startMin'),
      endMin: sql.placeholder('endMin'),
      dwellEndMin: sql.placeholder('dwellEndMin'),
    })
    .prepare(),
);
const dropPlacements = prepared((db) =>
  db.orm
    .delete(placement)
    .where(eq(placement.jobId, sql.placeholder('jobId')))
    .prepare(),
);

/** Counts every change of the plan. */
export function planRevision(db: ReadDb): number {
  return revision(db).get()?.revision ?? 0;
}

/** Takes whole plans off the board and sets new ones: all are lifted before the first is set, so cars can swap. */
export function replacePlans(db: WriteDb, plans: readonly JobPlanView[]): void {
  const open = plans.map(({ jobId, stays }) => {
    dropPlacements(db).run({ jobId });
    return { jobId, stays: liftStays(db, jobId, stays) };
  });
  for (const { jobId, stays } of open) setStays(db, jobId, stays);
  for (const plan of plans) {
    for (const { personIds, ...piece } of plan.pieces)
      for (const personId of personIds.length === 0 ? [null] : personIds)
        addPlacement(db).run({ jobId: plan.jobId, ...piece, personId });
  }
  countRevision(db).run();
}

type StageDone = { readonly jobId: JobId; readonly endMin: EpochMin };
/** The few whose hold outlasts them come first: only of those all stays are read. */
const ENDED_EARLY = `WITH over AS MATERIALIZED (
    SELECT DISTINCT j.id, j.state, coalesce(j.collected_ms, iif(j.arrived_ms IS NULL, 0, j.ended_ms), 0) / 60000 AS gone_min
    FROM stay l CROSS JOIN job j ON j.id = l.job_id
    WHERE l.leave_min > :nowMin - 43200 AND j.state IN ('cancelled', 'noShow', 'collected')
      AND l.leave_min * 60000 > coalesce(j.collected_ms, iif(j.arrived_ms IS NULL, 0, j.ended_ms), 0))
  SELECT s.job_id AS jobId, CASE WHEN o.state = 'collected' THEN max(o.gone_min, min(s.arrive_min) + 1) ELSE o.gone_min END AS endMin
  FROM over o CROSS JOIN stay s ON s.job_id = o.id GROUP BY s.job_id HAVING max(s.leave_min) > endMin`;

/**
 * Jobs that are over but still hold places on the plan, with the minute their hold ended (0 = never came). Looks back
 * thirty days from now: what is older was let go long since, and holds nothing that is still to come.
 */
export function endedEarly(db: ReadDb, nowMin: number): readonly StageDone[] {
  return allRows<StageDone>(db, ENDED_EARLY, { nowMin });
}

/** The plan of one job as it is kept, with the crew of each piece gathered. */
export function planOfJob(db: ReadDb, jobId: JobId): JobPlanView {
  return { jobId, stays: staysOf(db, jobId), pieces: gatherPieces(placementsOf(db, jobId)) };
}

/** True of a job whose car has come: it did stand where it was planned. */
export function hasCome(db: ReadDb, jobId: JobId): boolean {
  return (
    oneRow(db, 'SELECT 1 FROM job WHERE id = :jobId AND arrived_ms IS NOT NULL', { jobId }) !== undefined
  );
}

/** Stages of a job that were begun: somebody's time is recorded on them, or they cure and nobody stands by. */
export function begunStages(db: ReadDb, jobId: JobId): ReadonlySet<StageId> {
  const sql = `SELECT s.id FROM job_stage s WHERE s.job_id = :jobId
    AND (s.started_ms IS NOT NULL OR EXISTS (SELECT 1 FROM stage_work w WHERE w.stage_id = s.id))`;
  return new Set(allRows<{ id: StageId }>(db, sql, { jobId }).map((r) => r.id));
}

type PlacementRow = Omit<PiecePlan, 'personIds'> & {
  readonly stageId: StageId;
  readonly personId: PersonId | null;
};

function placementsOf(db: ReadDb, jobId: JobId): readonly PlacementRow[] {
  return allRows<PlacementRow>(
    db,
    `SELECT stage_id AS stageId, bay_id AS bayId, person_id AS personId, start_min AS startMin,
       end_min AS endMin, dwell_end_min AS dwellEndMin
     FROM placement WHERE job_id = :jobId ORDER BY start_min, id`,
    { jobId },
  );
}

function gatherPieces(rows: readonly PlacementRow[]): readonly PiecePlan[] {
  const pieces: PiecePlan[] = [];
  for (const { personId, ...row } of rows) {
    const last = pieces.at(-1);
    if (last && personId && last.stageId === row.stageId && last.startMin === row.startMin)
      pieces[pieces.length - 1] = { ...last, personIds: [...last.personIds, personId] };
    else pieces.push({ ...row, personIds: personId ? [personId] : [] });
  }
  return pieces;
}

export function noteConflict(
  db: WriteDb,
  conflictKey: string,
  personId: PersonId | null,
  seenMs: EpochMs,
): void {
  db.orm.insert(conflictSeen).values({ conflictKey, personId, seenMs }).onConflictDoNothing().run();
}
