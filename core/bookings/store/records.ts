import { eq, sql } from 'drizzle-orm';
import { addRow } from '../../db/rows.ts';
import { carRecord, job, jobOverride, stageNote } from '../../db/schema/bookings.ts';
import type { WriteDb } from '../../db/types.ts';
import type { CustomerId } from '../../shared/ids.ts';

export type CarRecordRow = typeof carRecord.$inferInsert;

/** Keeps how a car came or went. */
export function addCarRecord(db: WriteDb, row: CarRecordRow): void {
  addRow(db, carRecord, row);
}

/** Keeps a note on a stage. */
export function addStageNote(db: WriteDb, row: typeof stageNote.$inferInsert): void {
  addRow(db, stageNote, row);
}

/** Keeps who set which rule aside, and why. */
export function addOverride(db: WriteDb, row: typeof jobOverride.$inferInsert): void {
  db.orm.insert(jobOverride).values(row).run();
}

/** Empties the words of and about a customer in their jobs and the records of the cars: all that names or quotes them. */
export function eraseWordsOfCustomer(db: WriteDb, customerId: CustomerId, instead: string): void {
  const theirs = eq(job.customerId, customerId);
  db.orm
    .update(carRecord)
    .set({ agreedBy: instead, belongings: '', strokes: [], note: '' })
    .where(sql`${carRecord.jobId} IN (SELECT ${job.id} FROM ${job} WHERE ${theirs})`)
    .run();
  db.orm
    .update(job)
    .set({ wish: '', endReason: '', revision: sql`${job.revision} + 1` })
    .where(theirs)
    .run();
}
