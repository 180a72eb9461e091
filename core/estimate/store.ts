import { eq, max, sql } from 'drizzle-orm';
import { prepared } from '../db/prepared.ts';
import { addRow } from '../db/rows.ts';
import { estimate } from '../db/schema/estimate.ts';
import type { ReadDb, WriteDb } from '../db/types.ts';
import type { JobId } from '../shared/ids.ts';

const lastVersion = prepared((db) =>
  db.orm
    .select({ last: max(estimate.version) })
    .from(estimate)
    .where(eq(estimate.jobId, sql.placeholder('jobId')))
    .prepare(),
);

export function insertEstimate(db: WriteDb, row: typeof estimate.$inferInsert): void {
  addRow(db, estimate, row);
}

/** The number that a job's next version gets: 1, 2, 3 … */
export function nextVersion(db: ReadDb, jobId: JobId): number {
  return (lastVersion(db).get({ jobId })?.last ?? 0) + 1;
}
