import { and, eq, sql } from 'drizzle-orm';
import { prepared } from '../../db/prepared.ts';
import { addRow, patchRow, putRow } from '../../db/rows.ts';
import {
  filmReading,
  finding,
  inspection,
  panelState,
  sandingConsent,
  testSpot,
} from '../../db/schema/paint.ts';
import type { WriteDb } from '../../db/types.ts';
import type { InspectionId } from '../../shared/ids.ts';
import type { EpochMs, FilmTenthUm } from '../../shared/units.ts';
import type { PanelId } from '../../shared/vocabulary.ts';

export function insertInspection(db: WriteDb, row: typeof inspection.$inferInsert): void {
  addRow(db, inspection, row);
}

/** Counts a change on an inspection, so that somebody who edits an older one is told. */
export function touchInspection(db: WriteDb, id: InspectionId): void {
  patchRow(db, inspection, id, {});
}

export type PanelStateFields = Partial<Omit<typeof panelState.$inferInsert, 'inspectionId' | 'panel'>>;

/** Sets fields of a panel's state; a panel without a row starts from `usual`. */
export function savePanelState(
  db: WriteDb,
  id: InspectionId,
  panel: PanelId,
  usual: typeof panelState.$inferInsert,
  fields: PanelStateFields,
): void {
  const key = [panelState.inspectionId, panelState.panel];
  const row = { ...usual, ...fields, inspectionId: id, panel };
  putRow(db, panelState, key, row, Object.keys(fields) as (keyof PanelStateFields)[]);
}

export function insertFinding(db: WriteDb, row: typeof finding.$inferInsert): void {
  addRow(db, finding, row);
}

/** Takes a finding back; false when it is gone already or belongs to another inspection. */
export function removeFindingRow(db: WriteDb, inspectionId: InspectionId, id: string, now: EpochMs): boolean {
  const done = db.orm
    .update(finding)
    .set({ removedMs: now })
    .where(and(eq(finding.id, id), eq(finding.inspectionId, inspectionId), sql`${finding.removedMs} IS NULL`))
    .run();
  return done.changes === 1;
}

const addReading = prepared((db) =>
  db.orm
    .insert(filmReading)
    .values({
      inspectionId: sql.placeholder('inspectionId'),
      panel: sql.placeholder('panel'),
      phase: sql.placeholder('phase'),
      tenthUm: sql.placeholder('tenthUm'),
      point: sql.placeholder('point'),
      x: sql.placeholder('x'),
      y: sql.placeholder('y'),
      personId: sql.placeholder('personId'),
      atMs: sql.placeholder('atMs'),
    })
    .prepare(),
);

export type NewReading = {
  readonly inspectionId: InspectionId;
  readonly panel: PanelId;
  readonly phase: 'before' | 'after';
  readonly tenthUm: FilmTenthUm;
  readonly point: string | null;
  readonly x: number | null;
  readonly y: number | null;
  readonly personId: string | null;
  readonly atMs: EpochMs;
};

export function insertReadings(db: WriteDb, rows: readonly NewReading[]): void {
  const insert = addReading(db);
  for (const row of rows) insert.run({ ...row });
}

export function removeReadingRow(db: WriteDb, inspectionId: InspectionId, id: number, now: EpochMs): boolean {
  const done = db.orm
    .update(filmReading)
    .set({ removedMs: now })
    .where(
      and(
        eq(filmReading.id, id),
        eq(filmReading.inspectionId, inspectionId),
        sql`${filmReading.removedMs} IS NULL`,
      ),
    )
    .run();
  return done.changes === 1;
}

export function insertTestSpot(db: WriteDb, row: typeof testSpot.$inferInsert): void {
  addRow(db, testSpot, row);
}

export function insertConsent(db: WriteDb, row: typeof sandingConsent.$inferInsert): void {
  addRow(db, sandingConsent, row);
}

/** Takes the standing consent for a panel back; false when there is none. */
export function removeConsentRow(db: WriteDb, id: InspectionId, panel: PanelId, now: EpochMs): boolean {
  const standing = and(eq(sandingConsent.inspectionId, id), eq(sandingConsent.panel, panel));
  const done = db.orm
    .update(sandingConsent)
    .set({ removedMs: now })
    .where(and(standing, sql`${sandingConsent.removedMs} IS NULL`))
    .run();
  return done.changes > 0;
}

/** Blanks the names of those who agreed on a customer's jobs. */
export function forgetConsents(db: WriteDb, customerId: string, instead: string): void {
  db.orm.run(sql`UPDATE sanding_consent SET name = ${instead} WHERE inspection_id IN
    (SELECT i.id FROM inspection i JOIN job j ON j.id = i.job_id WHERE j.customer_id = ${customerId})`);
}
