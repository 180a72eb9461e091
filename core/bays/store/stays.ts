import { eq, sql } from 'drizzle-orm';
import { allRows, oneRow, prepared } from '../../db/prepared.ts';
import { stay } from '../../db/schema/bays.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import type { JobId } from '../../shared/ids.ts';
import type { StayPlan } from '../../shared/views/plan.ts';

const addStay = prepared((db) =>
  db.orm
    .insert(stay)
    .values({
      jobId: sql.placeholder('jobId'),
      bayId: sql.placeholder('bayId'),
      arriveMin: sql.placeholder('arriveMin'),
      leaveMin: sql.placeholder('leaveMin'),
    })
    .prepare(),
);
const dropStay = prepared((db) =>
  db.orm
    .delete(stay)
    .where(eq(stay.id, sql.placeholder('id')))
    .prepare(),
);
const cutStay = prepared((db) =>
  db.orm
    .update(stay)
    .set({ arriveMin: sql`${sql.placeholder('arriveMin')}`, leaveMin: sql`${sql.placeholder('leaveMin')}` })
    .where(eq(stay.id, sql.placeholder('id')))
    .prepare(),
);

/** Where a car is planned to stand, in order of arriving. */
export function staysOf(db: ReadDb, jobId: JobId): readonly StayPlan[] {
  return rowsOf(db, jobId).map(({ id: _, ...s }) => s);
}

type Row = StayPlan & { readonly id: number };

function rowsOf(db: ReadDb, jobId: JobId): readonly Row[] {
  return allRows<Row>(
    db,
    `SELECT id, bay_id AS bayId, arrive_min AS arriveMin, leave_min AS leaveMin
     FROM stay WHERE job_id = :jobId ORDER BY arrive_min`,
    { jobId },
  );
}

/**
 * Lifts what a car no longer holds; what it still needs room for is returned. A stay that is the same or only shorter
 * is left where it is: a yard that was made smaller refuses cars that come, not those that were planned before.
 */
export function liftStays(db: WriteDb, jobId: JobId, wanted: readonly StayPlan[]): readonly StayPlan[] {
  const open = [...wanted];
  for (const row of rowsOf(db, jobId)) {
    const at = open.findIndex((s) => isWithin(s, row));
    const [kept] = at < 0 ? [] : open.splice(at, 1);
    if (!kept) dropStay(db).run({ id: row.id });
    else if (kept.arriveMin !== row.arriveMin || kept.leaveMin !== row.leaveMin)
      cutStay(db).run({ id: row.id, arriveMin: kept.arriveMin, leaveMin: kept.leaveMin });
  }
  return open;
}

function isWithin(s: StayPlan, row: Row): boolean {
  return s.bayId === row.bayId && s.arriveMin >= row.arriveMin && s.leaveMin <= row.leaveMin;
}

export function setStays(db: WriteDb, jobId: JobId, stays: readonly StayPlan[]): void {
  for (const s of stays) addStay(db).run({ jobId, ...s });
}

type Span = Readonly<Record<'arriveMin' | 'leaveMin', number>> & Pick<StayPlan, 'bayId'>;

/**
 * Until when, up to `nowMin`, a bay of one car is kept for another job that stood there during a stay; 0 where it is not. Cars
 * that are gone count too.
 */
export function stoodUntil(db: ReadDb, jobId: JobId, during: Span, nowMin: number): number {
  const sql = `SELECT max(min(s.leave_min, :nowMin)) AS untilMin FROM stay s JOIN bay b ON b.id = s.bay_id
    WHERE b.capacity = 1 AND s.bay_id = :bayId AND s.job_id <> :jobId AND s.arrive_min < min(:leaveMin, :nowMin)
      AND s.leave_min > :arriveMin`;
  return oneRow<{ readonly untilMin: number | null }>(db, sql, { ...during, jobId, nowMin })?.untilMin ?? 0;
}
