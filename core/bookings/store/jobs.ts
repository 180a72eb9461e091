import { eq, sql } from 'drizzle-orm';
import { prepared } from '../../db/prepared.ts';
import { addRow, patchRow } from '../../db/rows.ts';
import { job } from '../../db/schema/bookings.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import type { JobId } from '../../shared/ids.ts';

export type JobRecord = typeof job.$inferSelect;
export type NewJob = typeof job.$inferInsert;
export type JobPatch = Partial<Omit<NewJob, 'id' | 'number' | 'createdMs' | 'createdBy' | 'revision'>>;

const byId = prepared((db) =>
  db.orm
    .select()
    .from(job)
    .where(eq(job.id, sql.placeholder('id')))
    .prepare(),
);

/** The job, or undefined when there is none with this id. */
export function findJob(db: ReadDb, id: JobId): JobRecord | undefined {
  return byId(db).get({ id });
}

/** Adds a job. */
export function addJob(db: WriteDb, row: NewJob): void {
  addRow(db, job, row);
}

/** Changes the named fields and counts the revision up. */
export function saveJob(db: WriteDb, id: JobId, patch: JobPatch): void {
  patchRow(db, job, id, patch);
}
