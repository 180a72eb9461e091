import { and, eq, isNull, ne, sql } from 'drizzle-orm';
import { hourCost, person, session } from '../db/schema/access.ts';
import type { ReadDb, WriteDb } from '../db/types.ts';
import type { PersonId } from '../shared/ids.ts';
import type { EpochMs, LocalDay } from '../shared/units.ts';

export type PersonRow = typeof person.$inferSelect;

export function personRow(db: ReadDb, id: PersonId): PersonRow | undefined {
  return db.orm.select().from(person).where(eq(person.id, id)).get();
}

export function allPeople(db: ReadDb): PersonRow[] {
  return db.orm.select().from(person).orderBy(person.startedDay, person.id).all();
}

export function insertPerson(db: WriteDb, row: typeof person.$inferInsert): void {
  db.orm.insert(person).values(row).run();
}

/** Changes a person if nobody has since `revision`; false when somebody has. */
export function updatePerson(
  db: WriteDb,
  id: PersonId,
  revision: number,
  fields: Partial<typeof person.$inferInsert>,
): boolean {
  const done = db.orm
    .update(person)
    .set({ ...fields, revision: sql`${person.revision} + 1` })
    .where(and(eq(person.id, id), eq(person.revision, revision)))
    .run();
  return done.changes === 1;
}

/** Counts or clears wrong PINs; not an edit that anybody else has to see first. */
export function updatePinTries(db: WriteDb, id: PersonId, pinTries: number, pinWaitMs: EpochMs): void {
  db.orm.update(person).set({ pinTries, pinWaitMs }).where(eq(person.id, id)).run();
}

export function hasSession(db: ReadDb, tokenHash: string): boolean {
  return (
    db.orm.select({ hash: session.tokenHash }).from(session).where(eq(session.tokenHash, tokenHash)).get() !==
    undefined
  );
}

export function insertSession(db: WriteDb, row: typeof session.$inferInsert): void {
  db.orm.insert(session).values(row).run();
}

/** Ends every session of a person but the one named; null names none. */
export function endSessionsOf(
  db: WriteDb,
  personId: PersonId,
  exceptHash: string | null,
  endedMs: EpochMs,
): void {
  const others = exceptHash === null ? undefined : ne(session.tokenHash, exceptHash);
  db.orm
    .update(session)
    .set({ endedMs })
    .where(and(eq(session.personId, personId), isNull(session.endedMs), others))
    .run();
}

export function endSession(db: WriteDb, tokenHash: string, endedMs: EpochMs): void {
  db.orm
    .update(session)
    .set({ endedMs })
    .where(and(eq(session.tokenHash, tokenHash), isNull(session.endedMs)))
    .run();
}

export type HourCost = typeof hourCost.$inferSelect;

export function allHourCosts(db: ReadDb): HourCost[] {
  return db.orm.select().from(hourCost).orderBy(hourCost.personId, hourCost.fromDay).all();
}

export function putHourCost(db: WriteDb, row: HourCost): void {
  db.orm
    .insert(hourCost)
    .values(row)
    .onConflictDoUpdate({ target: [hourCost.personId, hourCost.fromDay], set: { hourMinor: row.hourMinor } })
    .run();
}

export function dropHourCost(db: WriteDb, personId: PersonId, fromDay: LocalDay): void {
  db.orm
    .delete(hourCost)
    .where(and(eq(hourCost.personId, personId), eq(hourCost.fromDay, fromDay)))
    .run();
}
