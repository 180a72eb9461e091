import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { CONSENT_WAYS } from '../../shared/consent.ts';
import type { InspectionId, JobId, PersonId, VehicleId } from '../../shared/ids.ts';
import { MACHINES, STEP_ROLES } from '../../shared/machineStep.ts';
import type { EpochMs, FilmTenthUm } from '../../shared/units.ts';
import { FELT, READING_PHASES } from '../../shared/views/paint.ts';
import { DEFECTS, type Material, type PanelId, SEVERITIES, SUBSTRATES } from '../../shared/vocabulary.ts';

/** One look at the paint per job. */
export const inspection = sqliteTable('inspection', {
  id: text('id').$type<InspectionId>().primaryKey(),
  jobId: text('job_id').$type<JobId>().notNull(),
  vehicleId: text('vehicle_id').$type<VehicleId>().notNull(),
  personId: text('person_id').$type<PersonId>(),
  startedMs: integer('started_ms').$type<EpochMs>().notNull(),
  revision: integer('revision').notNull().default(1),
});

/** What one panel is made of and feels like. */
export const panelState = sqliteTable(
  'panel_state',
  {
    inspectionId: text('inspection_id').$type<InspectionId>().notNull(),
    panel: text('panel').$type<PanelId>().notNull(),
    substrate: text('substrate', { enum: SUBSTRATES }).notNull(),
    felt: text('felt', { enum: FELT }).notNull(),
    overridePerson: text('override_person').notNull().default(''),
    overrideReason: text('override_reason').notNull().default(''),
  },
  (t) => [primaryKey({ columns: [t.inspectionId, t.panel] })],
);

/** A defect on a panel. */
export const finding = sqliteTable('finding', {
  id: text('id').primaryKey(),
  inspectionId: text('inspection_id').$type<InspectionId>().notNull(),
  panel: text('panel').$type<PanelId>().notNull(),
  defect: text('defect', { enum: DEFECTS }).notNull(),
  severity: text('severity', { enum: SEVERITIES }).notNull(),
  lowTenthUm: integer('low_tenth_um').$type<FilmTenthUm>().notNull(),
  highTenthUm: integer('high_tenth_um').$type<FilmTenthUm>().notNull(),
  note: text('note').notNull(),
  personId: text('person_id').$type<PersonId>(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
  removedMs: integer('removed_ms').$type<EpochMs>(),
});

/** The owner's own word that a panel may be wet sanded. */
export const sandingConsent = sqliteTable('sanding_consent', {
  id: text('id').primaryKey(),
  inspectionId: text('inspection_id').$type<InspectionId>().notNull(),
  panel: text('panel').$type<PanelId>().notNull(),
  name: text('name').notNull(),
  way: text('way', { enum: CONSENT_WAYS }).notNull(),
  upToTenthUm: integer('up_to_tenth_um').$type<FilmTenthUm>().notNull(),
  personId: text('person_id').$type<PersonId>(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
  removedMs: integer('removed_ms').$type<EpochMs>(),
});

/** One reading of the gauge. */
export const filmReading = sqliteTable('film_reading', {
  id: integer('id').primaryKey(),
  inspectionId: text('inspection_id').$type<InspectionId>().notNull(),
  panel: text('panel').$type<PanelId>().notNull(),
  phase: text('phase', { enum: READING_PHASES }).notNull(),
  tenthUm: integer('tenth_um').$type<FilmTenthUm>().notNull(),
  point: text('point'),
  x: integer('x'),
  y: integer('y'),
  personId: text('person_id').$type<PersonId>(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
  removedMs: integer('removed_ms').$type<EpochMs>(),
});

/** Sections tried on this very car. */
export const testSpot = sqliteTable('test_spot', {
  id: text('id').primaryKey(),
  inspectionId: text('inspection_id').$type<InspectionId>().notNull(),
  panel: text('panel').$type<PanelId>().notNull(),
  role: text('role', { enum: STEP_ROLES }).notNull(),
  passes: integer('passes').notNull(),
  sections: integer('sections').notNull(),
  actualS: integer('actual_s').notNull(),
  removedTenthUm: integer('removed_tenth_um').$type<FilmTenthUm>(),
  personId: text('person_id').$type<PersonId>(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
});

/** Film booked against a panel's life at one visit. */
export const panelRemoval = sqliteTable(
  'panel_removal',
  {
    jobId: text('job_id').$type<JobId>().notNull(),
    panel: text('panel').$type<PanelId>().notNull(),
    plannedTenthUm: integer('planned_tenth_um').$type<FilmTenthUm>().notNull(),
    shownTenthUm: integer('shown_tenth_um').$type<FilmTenthUm>(),
    shown: integer('shown', { mode: 'boolean' }).notNull(),
    method: text('method', { enum: ['paired', 'welch', 'planned'] }).notNull(),
    bookedTenthUm: integer('booked_tenth_um').$type<FilmTenthUm>().notNull(),
    atMs: integer('at_ms').$type<EpochMs>().notNull(),
  },
  (t) => [primaryKey({ columns: [t.jobId, t.panel] })],
);

/** A picture of the vehicle. */
export const picture = sqliteTable('picture', {
  id: text('id').primaryKey(),
  jobId: text('job_id').$type<JobId>().notNull(),
  panel: text('panel').$type<PanelId>(),
  phase: text('phase', { enum: READING_PHASES }).notNull(),
  hash: text('hash').notNull(),
  mime: text('mime', { enum: ['image/jpeg', 'image/png', 'image/webp'] }).notNull(),
  consent: text('consent', { enum: ['record', 'publish'] }).notNull(),
  personId: text('person_id').$type<PersonId>(),
  takenMs: integer('taken_ms').$type<EpochMs>().notNull(),
  removedMs: integer('removed_ms').$type<EpochMs>(),
});

/** Machine, pad and liquid of a step as the shop uses it. */
export const machineStep = sqliteTable('machine_step', {
  role: text('role', { enum: STEP_ROLES }).primaryKey(),
  machine: text('machine', { enum: MACHINES }).notNull(),
  pad: text('pad').$type<Material>().notNull(),
  liquid: text('liquid').$type<Material>().notNull(),
  padDiameterMm: integer('pad_diameter_mm').notNull(),
  speedRpm: integer('speed_rpm').notNull(),
  referenceRpm: integer('reference_rpm').notNull(),
  pressureN: integer('pressure_n').notNull(),
  referenceN: integer('reference_n').notNull(),
  tenthUmPerKs: integer('tenth_um_per_ks').notNull(),
  errorPerKs: integer('error_per_ks'),
  sectionsPerPad: integer('sections_per_pad').notNull(),
  revision: integer('revision').notNull().default(1),
});
