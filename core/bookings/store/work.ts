import { and, asc, eq, isNull, sql } from 'drizzle-orm';
import { prepared } from '../../db/prepared.ts';
import { job, jobStage, stageWork } from '../../db/schema/bookings.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import type { JobId, PersonId, StageId } from '../../shared/ids.ts';
import type { EpochMs } from '../../shared/units.ts';
import type { StageKind } from '../../shared/vocabulary.ts';

export type WorkRecord = typeof stageWork.$inferSelect;
/** A stretch with the job and stage it belongs to, for sentences. */
export type NamedWork = WorkRecord & {
  readonly jobId: JobId;
  readonly jobNumber: number;
  readonly kind: StageKind;
};

const ofStage = prepared((db) =>
  db.orm
    .select()
    .from(stageWork)
    .where(eq(stageWork.stageId, sql.placeholder('stageId')))
    .orderBy(asc(stageWork.startMs), asc(stageWork.id))
    .prepare(),
);
const ofPerson = prepared((db) =>
  db.orm
    .select({ work: stageWork, jobId: job.id, jobNumber: job.number, kind: jobStage.kind })
    .from(stageWork)
    .innerJoin(jobStage, eq(jobStage.id, stageWork.stageId))
    .innerJoin(job, eq(job.id, jobStage.jobId))
    .where(
      sql`${stageWork.personId} = ${sql.placeholder('personId')} AND ${stageWork.startMs} < ${sql.placeholder('toMs')} AND (${stageWork.endMs} > ${sql.placeholder('fromMs')} OR ${stageWork.endMs} IS NULL)`,
    )
    .orderBy(asc(stageWork.startMs))
    .prepare(),
);
const running = prepared((db) =>
  db.orm
    .select({ work: stageWork, jobId: job.id, jobNumber: job.number, kind: jobStage.kind })
    .from(stageWork)
    .innerJoin(jobStage, eq(jobStage.id, stageWork.stageId))
    .innerJoin(job, eq(job.id, jobStage.jobId))
    .where(and(eq(stageWork.personId, sql.placeholder('personId')), isNull(stageWork.endMs)))
    .orderBy(asc(stageWork.startMs))
    .prepare(),
);
const one = prepared((db) =>
  db.orm
    .select()
    .from(stageWork)
    .where(eq(stageWork.id, sql.placeholder('id')))
    .prepare(),
);
const start = prepared((db) =>
  db.orm
    .insert(stageWork)
    .values({
      stageId: sql.placeholder('stageId'),
      personId: sql.placeholder('personId'),
      startMs: sql.placeholder('startMs'),
      endMs: sql.placeholder('endMs'),
      corrected: sql.placeholder('corrected'),
      // Of a stage planned in parts: of the last part that had begun by then, else of the first one.
      bayId: sql`(SELECT p.bay_id FROM placement p WHERE p.stage_id = ${sql.placeholder('stageId')}
        ORDER BY p.start_min * 60000 > ${sql.placeholder('startMs')},
          abs(p.start_min * 60000 - ${sql.placeholder('startMs')}), p.id LIMIT 1)`,
    })
    .prepare(),
);

const end = prepared((db) =>
  db.orm
    .update(stageWork)
    .set({ endMs: sql`max(${stageWork.startMs}, ${sql.placeholder('endMs')})` })
    .where(
      and(
        eq(stageWork.stageId, sql.placeholder('stageId')),
        isNull(stageWork.endMs),
        sql`${stageWork.personId} = ifnull(${sql.placeholder('personId')}, ${stageWork.personId})`,
      ),
    )
    .prepare(),
);

/** Stretches of a stage, earliest first. */
export function workOfStage(db: ReadDb, stageId: StageId): WorkRecord[] {
  return ofStage(db).all({ stageId });
}

/** Stretches of one person that have not ended. */
export function runningWorkOf(db: ReadDb, personId: PersonId): NamedWork[] {
  return running(db)
    .all({ personId })
    .map(({ work, ...named }) => ({ ...work, ...named }));
}

/** Stretches of one person that touch the span. */
export function workOfPerson(db: ReadDb, personId: PersonId, fromMs: number, toMs: number): NamedWork[] {
  return ofPerson(db)
    .all({ personId, fromMs, toMs })
    .map(({ work, ...named }) => ({ ...work, ...named }));
}

/** One stretch, or undefined. */
export function findWork(db: ReadDb, id: number): WorkRecord | undefined {
  return one(db).get({ id });
}

/**
 * Adds a stretch, in the bay that the board has its stage in by then: it was done there, wherever the rest is moved to.
 * `endMs` null while it runs. Returns its id.
 */
export function addWork(db: WriteDb, row: Omit<WorkRecord, 'id' | 'bayId'>): number {
  return Number(start(db).run(row).lastInsertRowid);
}

/** Ends every running stretch of a stage, or only one person's. A stretch never ends before it began. */
export function endRunning(db: WriteDb, stageId: StageId, endMs: EpochMs, personId?: PersonId): number {
  return end(db).run({ stageId, endMs, personId: personId ?? null }).changes;
}

/** Replaces a stretch's times by typed ones. */
export function correctWork(
  db: WriteDb,
  id: number,
  times: { personId: PersonId; startMs: EpochMs; endMs: EpochMs },
): void {
  db.orm
    .update(stageWork)
    .set({ ...times, corrected: true })
    .where(eq(stageWork.id, id))
    .run();
}

/** Takes a stretch out that never happened. */
export function removeWork(db: WriteDb, id: number): void {
  db.orm.delete(stageWork).where(eq(stageWork.id, id)).run();
}
