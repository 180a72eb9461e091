import { and, asc, eq, sql } from 'drizzle-orm';
import { allRows, prepared } from '../../db/prepared.ts';
import { patchRow } from '../../db/rows.ts';
import { jobMaterial, jobStage, stagePanel, stageShare } from '../../db/schema/bookings.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import type { JobId, PersonId, StageId } from '../../shared/ids.ts';
import type { MaterialAmount } from '../../shared/stagePlan.ts';
import type { StageShare } from '../../shared/stageShare.ts';
import type { EpochMs } from '../../shared/units.ts';
import type { PanelId } from '../../shared/vocabulary.ts';

export type StageRecord = typeof jobStage.$inferSelect;
export type NewStage = typeof jobStage.$inferInsert;
export type StagePatch = Partial<Pick<NewStage, 'state' | 'startedMs' | 'doneMs' | 'seq'>>;

const byId = prepared((db) =>
  db.orm
    .select()
    .from(jobStage)
    .where(eq(jobStage.id, sql.placeholder('id')))
    .prepare(),
);
const ofJob = prepared((db) =>
  db.orm
    .select()
    .from(jobStage)
    .where(eq(jobStage.jobId, sql.placeholder('jobId')))
    .orderBy(asc(jobStage.seq))
    .prepare(),
);
const panelsOfJob = prepared((db) =>
  db.orm
    .select({ stageId: stagePanel.stageId, panel: stagePanel.panel })
    .from(stagePanel)
    .innerJoin(jobStage, eq(jobStage.id, stagePanel.stageId))
    .where(eq(jobStage.jobId, sql.placeholder('jobId')))
    .prepare(),
);
const addStageQuery = prepared((db) =>
  db.orm
    .insert(jobStage)
    .values({
      id: sql.placeholder('id'),
      jobId: sql.placeholder('jobId'),
      seq: sql.placeholder('seq'),
      kind: sql.placeholder('kind'),
      state: sql.placeholder('state'),
      panels: sql.placeholder('panels'),
      estimatedMin: sql.placeholder('estimatedMin'),
      p20Min: sql.placeholder('p20Min'),
      p50Min: sql.placeholder('p50Min'),
      p80Min: sql.placeholder('p80Min'),
      p95Min: sql.placeholder('p95Min'),
      mu: sql.placeholder('mu'),
      sigma: sql.placeholder('sigma'),
      dwellMin: sql.placeholder('dwellMin'),
      bayKinds: sql.placeholder('bayKinds'),
      skill: sql.placeholder('skill'),
      crew: sql.placeholder('crew'),
      splittable: sql.placeholder('splittable'),
      note: sql.placeholder('note'),
    })
    .prepare(),
);
const addMaterialQuery = prepared((db) =>
  db.orm
    .insert(jobMaterial)
    .values({
      stageId: sql.placeholder('stageId'),
      material: sql.placeholder('material'),
      amount: sql.placeholder('amount'),
    })
    .prepare(),
);
const dropMaterials = prepared((db) =>
  db.orm
    .delete(jobMaterial)
    .where(eq(jobMaterial.stageId, sql.placeholder('id')))
    .prepare(),
);
const liftOrder = prepared((db) =>
  db.orm
    .update(jobStage)
    .set({ seq: sql`${jobStage.seq} + 1000` })
    .where(eq(jobStage.jobId, sql.placeholder('jobId')))
    .prepare(),
);

/** The stage, or undefined when there is none with this id. */
export function findStage(db: ReadDb, id: StageId): StageRecord | undefined {
  return byId(db).get({ id });
}

/** Stages of a job in the order of work. */
export function stagesOf(db: ReadDb, jobId: JobId): StageRecord[] {
  return ofJob(db).all({ jobId });
}

/** What the order of work asks of a stage. */
export type StageStep = Pick<
  StageRecord,
  'id' | 'seq' | 'kind' | 'state' | 'crew' | 'dwellMin' | 'startedMs'
>;
const STEPS = `SELECT id, seq, kind, state, crew, dwell_min AS dwellMin, started_ms AS startedMs
  FROM job_stage WHERE job_id = :jobId ORDER BY seq`;

/** The same stages, with no more than their order and how far they are: asked whenever one is begun or ended. */
export function stepsOf(db: ReadDb, jobId: JobId): readonly StageStep[] {
  return allRows<StageStep>(db, STEPS, { jobId });
}

/** Panels finished so far, by stage. */
export function panelsDoneOf(db: ReadDb, jobId: JobId): ReadonlyMap<StageId, readonly PanelId[]> {
  const done = new Map<StageId, PanelId[]>();
  for (const row of panelsOfJob(db).all({ jobId }))
    done.set(row.stageId, [...(done.get(row.stageId) ?? []), row.panel]);
  return done;
}

/** Adds a stage that nobody has begun. */
export function addStage(db: WriteDb, row: Omit<NewStage, 'startedMs' | 'doneMs' | 'revision'>): void {
  addStageQuery(db).run(row);
}

/** Adds what a stage is planned to use; materials of the same kind are summed by the caller. */
export function addMaterials(db: WriteDb, stageId: StageId, materials: readonly MaterialAmount[]): void {
  for (const { material, amount } of materials) addMaterialQuery(db).run({ stageId, material, amount });
}

/** What the stages of a job are planned to use, by stage. */
export function materialsOf(db: ReadDb, jobId: JobId): ReadonlyMap<StageId, readonly MaterialAmount[]> {
  const rows = allRows<MaterialAmount & { readonly stageId: StageId }>(
    db,
    `SELECT m.stage_id AS stageId, m.material, m.amount FROM job_stage s JOIN job_material m ON m.stage_id = s.id
     WHERE s.job_id = :jobId`,
    { jobId },
  );
  return Map.groupBy(rows, (r) => r.stageId);
}

/** Changes the named fields and counts the revision up. */
export function saveStage(db: WriteDb, id: StageId, patch: StagePatch): void {
  patchRow(db, jobStage, id, patch);
}

/** Gives a stage the figures of a new plan; the materials planned for it are taken out. */
export function replanStage(
  db: WriteDb,
  id: StageId,
  fields: Omit<NewStage, 'id' | 'jobId' | 'startedMs' | 'doneMs' | 'revision'>,
): void {
  dropMaterials(db).run({ id });
  patchRow(db, jobStage, id, fields);
}

/** Lifts all stages of a job out of their order, so that a new order can be written one by one. */
export function setAsideOrder(db: WriteDb, jobId: JobId): void {
  liftOrder(db).run({ jobId });
}

/** Marks a panel finished within a stage; again is no change. */
export function addPanelDone(
  db: WriteDb,
  row: { stageId: StageId; panel: PanelId; doneMs: EpochMs; personId: PersonId | null },
): void {
  db.orm.insert(stagePanel).values(row).onConflictDoNothing().run();
}

/** Takes the mark of a panel back. */
export function removePanelDone(db: WriteDb, stageId: StageId, panel: PanelId): void {
  db.orm
    .delete(stagePanel)
    .where(and(eq(stagePanel.stageId, stageId), eq(stagePanel.panel, panel)))
    .run();
}

/** Keeps what was done of a stage of a job stopped half way. */
export function saveShare(db: WriteDb, stageId: StageId, share: StageShare): void {
  db.orm
    .insert(stageShare)
    .values({ stageId, ...share })
    .onConflictDoUpdate({ target: stageShare.stageId, set: { ...share } })
    .run();
}

/** Takes back what was done of the stages of a job that goes on after it was stopped half way. */
export function clearShares(db: WriteDb, jobId: JobId): void {
  db.orm
    .delete(stageShare)
    .where(
      sql`${stageShare.stageId} IN (SELECT ${jobStage.id} FROM ${jobStage} WHERE ${eq(jobStage.jobId, jobId)})`,
    )
    .run();
}
