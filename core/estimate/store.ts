import { eq, max } from 'drizzle-orm';
import { estimate } from '../db/schema/estimate.ts';
import type { ReadDb, WriteDb } from '../db/types.ts';
import type { JobId } from '../shared/ids.ts';

export function insertEstimate(db: WriteDb, row: typeof estimate.$inferInsert): void {
  db.orm.insert(estimate).values(row).run();
}

/** The number that a job's next version gets: 1, 2, 3 … */
export function nextVersion(db: ReadDb, jobId: JobId): number {
  const row = db.orm
    .select({ last: max(estimate.version) })
    .from(estimate)
    .where(eq(estimate.jobId, jobId))
    .get();
  return (row?.last ?? 0) + 1;
}
