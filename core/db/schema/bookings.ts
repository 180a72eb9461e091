import { integer, primaryKey, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { BayId, CustomerId, JobId, PersonId, StageId, VehicleId } from '../../shared/ids.ts';
import type { EpochMin, EpochMs, Minor, Ppm } from '../../shared/units.ts';
import type {
  AgreedWay,
  DamageNote,
  LateWeight,
  OverrideRule,
  SignaturePoint,
} from '../../shared/views/bookings.ts';
import { PLAN_BASES, PURPOSES } from '../../shared/views/bookings.ts';
import type { BayKind, Material, PanelId, Skill } from '../../shared/vocabulary.ts';
import { JOB_STATES, STAGE_KINDS, STAGE_STATES } from '../../shared/vocabulary.ts';

/** One car's way through the shop. */
export const job = sqliteTable('job', {
  id: text('id').$type<JobId>().primaryKey(),
  number: integer('number').notNull(),
  customerId: text('customer_id').$type<CustomerId>().notNull(),
  vehicleId: text('vehicle_id').$type<VehicleId>().notNull(),
  payerId: text('payer_id').$type<CustomerId>(),
  purpose: text('purpose', { enum: PURPOSES }).notNull(),
  state: text('state', { enum: JOB_STATES }).notNull(),
  wish: text('wish').notNull(),
  ceilingMinor: integer('ceiling_minor').$type<Minor>(),
  ceilingMin: integer('ceiling_min'),
  wantedByMin: integer('wanted_by_min').$type<EpochMin>(),
  lateWeight: integer('late_weight').$type<LateWeight>().notNull().default(1),
  dropOffMin: integer('drop_off_min').$type<EpochMin>(),
  pickUpMin: integer('pick_up_min').$type<EpochMin>(),
  promisePpm: integer('promise_ppm').$type<Ppm>(),
  bold: integer('bold', { mode: 'boolean' }).notNull().default(false),
  bookedMs: integer('booked_ms').$type<EpochMs>(),
  arrivedMs: integer('arrived_ms').$type<EpochMs>(),
  readyMs: integer('ready_ms').$type<EpochMs>(),
  collectedMs: integer('collected_ms').$type<EpochMs>(),
  endedMs: integer('ended_ms').$type<EpochMs>(),
  endReason: text('end_reason').notNull().default(''),
  planBasis: text('plan_basis', { enum: PLAN_BASES }).notNull().default('none'),
  stoppedMs: integer('stopped_ms').$type<EpochMs>(),
  redoOfJobId: text('redo_of_job_id').$type<JobId>(),
  createdMs: integer('created_ms').$type<EpochMs>().notNull(),
  createdBy: text('created_by').$type<PersonId>(),
  revision: integer('revision').notNull().default(1),
});

/** One stage of a job: planned, worked, done. */
export const jobStage = sqliteTable('job_stage', {
  id: text('id').$type<StageId>().primaryKey(),
  jobId: text('job_id').$type<JobId>().notNull(),
  seq: integer('seq').notNull(),
  kind: text('kind', { enum: STAGE_KINDS }).notNull(),
  state: text('state', { enum: STAGE_STATES }).notNull(),
  panels: text('panels', { mode: 'json' }).$type<readonly PanelId[]>().notNull(),
  estimatedMin: integer('estimated_min').notNull(),
  p20Min: integer('p20_min').notNull(),
  p50Min: integer('p50_min').notNull(),
  p80Min: integer('p80_min').notNull(),
  p95Min: integer('p95_min').notNull(),
  mu: real('mu').notNull(),
  sigma: real('sigma').notNull(),
  dwellMin: integer('dwell_min').notNull(),
  bayKinds: text('bay_kinds', { mode: 'json' }).$type<readonly BayKind[]>().notNull(),
  skill: text('skill').$type<Skill>().notNull(),
  crew: integer('crew').notNull(),
  splittable: integer('splittable', { mode: 'boolean' }).notNull(),
  note: text('note').notNull(),
  startedMs: integer('started_ms').$type<EpochMs>(),
  doneMs: integer('done_ms').$type<EpochMs>(),
  revision: integer('revision').notNull().default(1),
});

/** What the plan expects a stage to use. */
export const jobMaterial = sqliteTable(
  'job_material',
  {
    stageId: text('stage_id').$type<StageId>().notNull(),
    material: text('material').$type<Material>().notNull(),
    amount: integer('amount').notNull(),
  },
  (t) => [primaryKey({ columns: [t.stageId, t.material] })],
);

/** Time really worked. */
export const stageWork = sqliteTable('stage_work', {
  id: integer('id').primaryKey(),
  stageId: text('stage_id').$type<StageId>().notNull(),
  personId: text('person_id').$type<PersonId>().notNull(),
  startMs: integer('start_ms').$type<EpochMs>().notNull(),
  endMs: integer('end_ms').$type<EpochMs>(),
  corrected: integer('corrected', { mode: 'boolean' }).notNull().default(false),
  bayId: text('bay_id').$type<BayId>(),
});

/** The car as it came and as it went. */
export const carRecord = sqliteTable('car_record', {
  id: text('id').primaryKey(),
  jobId: text('job_id').$type<JobId>().notNull(),
  kind: text('kind', { enum: ['arrival', 'handover'] }).notNull(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
  lateMin: integer('late_min').notNull(),
  mileage: integer('mileage'),
  mileageUnit: text('mileage_unit', { enum: ['km', 'mi'] }).notNull(),
  keyCount: integer('key_count').notNull(),
  belongings: text('belongings').notNull(),
  damage: text('damage', { mode: 'json' }).$type<readonly DamageNote[]>().notNull(),
  picturesRecord: integer('pictures_record', { mode: 'boolean' }).notNull(),
  picturesPublish: integer('pictures_publish', { mode: 'boolean' }).notNull(),
  agreedBy: text('agreed_by').notNull(),
  agreedWay: text('agreed_way').$type<AgreedWay>().notNull(),
  strokes: text('strokes', { mode: 'json' }).$type<readonly (readonly SignaturePoint[])[]>().notNull(),
  note: text('note').notNull(),
  locale: text('locale').notNull().default(''),
  personId: text('person_id').$type<PersonId>(),
});

/** Panels finished within a stage. */
export const stagePanel = sqliteTable(
  'stage_panel',
  {
    stageId: text('stage_id').$type<StageId>().notNull(),
    panel: text('panel').$type<PanelId>().notNull(),
    doneMs: integer('done_ms').$type<EpochMs>().notNull(),
    personId: text('person_id').$type<PersonId>(),
  },
  (t) => [primaryKey({ columns: [t.stageId, t.panel] })],
);

/** What somebody noted while working. */
export const stageNote = sqliteTable('stage_note', {
  id: text('id').primaryKey(),
  stageId: text('stage_id').$type<StageId>().notNull(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
  personId: text('person_id').$type<PersonId>(),
  note: text('note').notNull(),
});

/** A rule of the trade that a named person set aside. */
export const jobOverride = sqliteTable('job_override', {
  id: text('id').primaryKey(),
  jobId: text('job_id').$type<JobId>().notNull(),
  stageId: text('stage_id').$type<StageId>().notNull(),
  rule: text('rule').$type<OverrideRule>().notNull(),
  panels: text('panels', { mode: 'json' }).$type<readonly PanelId[]>().notNull(),
  personId: text('person_id').$type<PersonId>().notNull(),
  reason: text('reason').notNull(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
});

/** What was done of each stage when a job was stopped half way. */
export const stageShare = sqliteTable('stage_share', {
  stageId: text('stage_id').$type<StageId>().primaryKey(),
  sharePpm: integer('share_ppm').$type<Ppm>().notNull(),
  basis: text('basis', { enum: ['named', 'whole', 'panels', 'time', 'nothing'] }).notNull(),
});
