import { and, eq, sql } from 'drizzle-orm';
import { allRows, prepared } from '../../db/prepared.ts';
import { machineStep, panelRemoval, picture } from '../../db/schema/paint.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import type { CustomerId, JobId } from '../../shared/ids.ts';
import type { EpochMs } from '../../shared/units.ts';
import type { PanelId } from '../../shared/vocabulary.ts';

const saveBooked = prepared((db) =>
  db.orm
    .insert(panelRemoval)
    .values({
      jobId: sql.placeholder('jobId'),
      panel: sql.placeholder('panel'),
      plannedTenthUm: sql.placeholder('plannedTenthUm'),
      shownTenthUm: sql.placeholder('shownTenthUm'),
      shown: sql.placeholder('shown'),
      method: sql.placeholder('method'),
      bookedTenthUm: sql.placeholder('bookedTenthUm'),
      atMs: sql.placeholder('atMs'),
    })
    .onConflictDoUpdate({
      target: [panelRemoval.jobId, panelRemoval.panel],
      set: {
        plannedTenthUm: sql`excluded.planned_tenth_um`,
        shownTenthUm: sql`excluded.shown_tenth_um`,
        shown: sql`excluded.shown`,
        method: sql`excluded.method`,
        bookedTenthUm: sql`excluded.booked_tenth_um`,
        atMs: sql`excluded.at_ms`,
      },
    })
    .prepare(),
);

/** Panels of a job against which film is booked. */
export function bookedPanels(db: ReadDb, jobId: JobId): readonly PanelId[] {
  const sql = 'SELECT panel FROM panel_removal WHERE job_id = :jobId';
  return allRows<{ readonly panel: PanelId }>(db, sql, { jobId }).map((row) => row.panel);
}

/** Books film against a panel's life, or books it anew when more readings came in. */
export function saveRemoval(db: WriteDb, row: typeof panelRemoval.$inferInsert): void {
  saveBooked(db).run({ ...row, shownTenthUm: row.shownTenthUm ?? null });
}

export function insertPicture(db: WriteDb, row: typeof picture.$inferInsert): void {
  db.orm.insert(picture).values(row).run();
}

export function pictureRow(db: ReadDb, id: string): typeof picture.$inferSelect | undefined {
  return db.orm.select().from(picture).where(eq(picture.id, id)).get();
}

export function removePictureRow(db: WriteDb, id: string, now: EpochMs): boolean {
  const done = db.orm
    .update(picture)
    .set({ removedMs: now })
    .where(and(eq(picture.id, id), sql`${picture.removedMs} IS NULL`))
    .run();
  return done.changes === 1;
}

/**
 * Takes back every picture of a customer's jobs. Returns the hashes, also of those taken back before, that no standing
 * picture names: nothing needs their files any more.
 */
export function takeBackPicturesOf(db: WriteDb, customerId: CustomerId, now: EpochMs): string[] {
  const theirs = sql`${picture.jobId} IN (SELECT id FROM job WHERE customer_id = ${customerId})`;
  db.orm
    .update(picture)
    .set({ removedMs: now })
    .where(and(theirs, sql`${picture.removedMs} IS NULL`))
    .run();
  const standing = sql`(SELECT p.hash FROM picture p WHERE p.removed_ms IS NULL
    UNION SELECT d.hash FROM data_sheet d WHERE d.removed_ms IS NULL)`;
  return db.orm
    .selectDistinct({ hash: picture.hash })
    .from(picture)
    .where(and(theirs, sql`${picture.hash} NOT IN ${standing}`))
    .all()
    .map((row) => row.hash);
}

export function saveStep(db: WriteDb, row: typeof machineStep.$inferInsert): void {
  const { role: _role, ...fields } = row;
  db.orm
    .insert(machineStep)
    .values(row)
    .onConflictDoUpdate({
      target: machineStep.role,
      set: { ...fields, revision: sql`${machineStep.revision} + 1` },
    })
    .run();
}
