import { eq, sql } from 'drizzle-orm';
import { oneRow } from '../../db/prepared.ts';
import {
  absence,
  bay,
  closure,
  dustPair,
  openingHours,
  shift,
  stageGap,
  technician,
} from '../../db/schema/bays.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import type { BayId, PersonId } from '../../shared/ids.ts';
import type { EpochMin } from '../../shared/units.ts';
import type { OpeningHoursView, ShiftView } from '../../shared/views/baysSetup.ts';
import type { StageKind } from '../../shared/vocabulary.ts';

export type BayRecord = typeof bay.$inferSelect;

export function keptBays(db: ReadDb): readonly BayRecord[] {
  return db.orm.select().from(bay).orderBy(bay.seq).all();
}

export function findBay(db: ReadDb, id: BayId): BayRecord | undefined {
  return db.orm.select().from(bay).where(eq(bay.id, id)).get();
}

export function insertBay(db: WriteDb, row: typeof bay.$inferInsert): void {
  db.orm.insert(bay).values(row).run();
}

export function patchBay(db: WriteDb, id: BayId, patch: Partial<Omit<BayRecord, 'id' | 'revision'>>): void {
  db.orm
    .update(bay)
    .set({ ...patch, revision: sql`${bay.revision} + 1` })
    .where(eq(bay.id, id))
    .run();
}

/** Cars of jobs that are not over, planned to stand in a bay after a minute. */
export function carsPlannedIn(db: ReadDb, bayId: BayId, fromMin: number): number {
  const row = oneRow<{ n: number }>(
    db,
    `SELECT count(DISTINCT s.job_id) AS n FROM stay s JOIN job j ON j.id = s.job_id
     WHERE s.bay_id = :bayId AND s.leave_min > :fromMin AND j.state IN ('enquiry','quoted','booked','here','inWork','ready')`,
    { bayId, fromMin },
  );
  return row?.n ?? 0;
}

/** The first minute of which the bay has a car or work on record, planned or real; null where it never had. */
export function firstUseMin(db: ReadDb, bayId: BayId): number | null {
  const row = oneRow<{ atMin: number | null }>(
    db,
    `SELECT min(at_min) AS atMin FROM (
       SELECT s.arrive_min AS at_min FROM stay s WHERE s.bay_id = :bayId
       UNION ALL SELECT j.arrived_ms / 60000 FROM stay s JOIN job j ON j.id = s.job_id
       WHERE s.bay_id = :bayId AND NOT EXISTS (SELECT 1 FROM stay e WHERE e.job_id = s.job_id AND e.arrive_min < s.arrive_min)
       UNION ALL SELECT min(p.start_min, coalesce(g.started_ms / 60000, p.start_min))
       FROM placement p JOIN job_stage g ON g.id = p.stage_id WHERE p.bay_id = :bayId
       UNION ALL SELECT w.start_ms / 60000 FROM stage_work w WHERE w.bay_id = :bayId)`,
    { bayId },
  );
  return row?.atMin ?? null;
}

export function replaceHours(db: WriteDb, hours: readonly OpeningHoursView[]): void {
  db.orm.delete(openingHours).run();
  for (const row of hours) db.orm.insert(openingHours).values(row).run();
}

export function saveTechnician(
  db: WriteDb,
  row: typeof technician.$inferInsert,
  shifts: readonly ShiftView[],
): void {
  const { skills, speedPpm } = row;
  db.orm
    .insert(technician)
    .values(row)
    .onConflictDoUpdate({
      target: technician.personId,
      set: { skills, speedPpm, revision: sql`${technician.revision} + 1` },
    })
    .run();
  db.orm.delete(shift).where(eq(shift.personId, row.personId)).run();
  for (const s of shifts)
    db.orm
      .insert(shift)
      .values({ personId: row.personId, ...s })
      .run();
}

export function insertClosure(db: WriteDb, row: typeof closure.$inferInsert): void {
  db.orm.insert(closure).values(row).run();
}
export function deleteClosure(db: WriteDb, id: string): boolean {
  return db.orm.delete(closure).where(eq(closure.id, id)).run().changes > 0;
}
export function saveGap(db: WriteDb, row: typeof stageGap.$inferInsert): void {
  const { leastMin, mostMin } = row;
  db.orm
    .insert(stageGap)
    .values(row)
    .onConflictDoUpdate({ target: stageGap.stage, set: { leastMin, mostMin } })
    .run();
}
export function deleteGap(db: WriteDb, stage: StageKind): boolean {
  return db.orm.delete(stageGap).where(eq(stageGap.stage, stage)).run().changes > 0;
}
/** Whether the pair, or every bay where it names none, is in dust already. */
export function hasDust(db: ReadDb, bayA: BayId | null, bayB: BayId | null): boolean {
  return (
    oneRow(db, 'SELECT 1 AS yes FROM dust_pair WHERE bay_a IS :bayA AND bay_b IS :bayB', { bayA, bayB }) !==
    undefined
  );
}
export function insertDust(db: WriteDb, row: typeof dustPair.$inferInsert): void {
  db.orm.insert(dustPair).values(row).run();
}
export function deleteDust(db: WriteDb, id: string): boolean {
  return db.orm.delete(dustPair).where(eq(dustPair.id, id)).run().changes > 0;
}
export function insertAbsence(
  db: WriteDb,
  row: { id: string; personId: PersonId; startMin: EpochMin; endMin: EpochMin; reason: string },
): void {
  db.orm.insert(absence).values(row).run();
}
/** Whose absence it was; undefined when there is no such row. */
export function deleteAbsence(db: WriteDb, id: string): PersonId | undefined {
  return db.orm.delete(absence).where(eq(absence.id, id)).returning({ personId: absence.personId }).get()
    ?.personId;
}

export function personExists(db: ReadDb, id: PersonId): boolean {
  return oneRow(db, 'SELECT 1 AS yes FROM person WHERE id = :id', { id }) !== undefined;
}
