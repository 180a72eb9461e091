import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { BayId, JobId, PersonId, StageId } from '../../shared/ids.ts';
import type { EpochMin, EpochMs, LocalDay, Ppm } from '../../shared/units.ts';
import { BAY_KINDS, type Skill, STAGE_KINDS } from '../../shared/vocabulary.ts';

/** A bay, or the yard. */
export const bay = sqliteTable('bay', {
  id: text('id').$type<BayId>().primaryKey(),
  name: text('name').notNull(),
  kind: text('kind', { enum: BAY_KINDS }).notNull(),
  capacity: integer('capacity').notNull(),
  setupMin: integer('setup_min').notNull().default(0),
  seq: integer('seq').notNull(),
  startedDay: text('started_day').$type<LocalDay>().notNull(),
  endedDay: text('ended_day').$type<LocalDay>(),
  revision: integer('revision').notNull().default(1),
});

/** When the shop works, and when the desk hands cars over. */
export const openingHours = sqliteTable(
  'opening_hours',
  {
    weekday: integer('weekday').notNull(),
    kind: text('kind', { enum: ['shop', 'desk'] }).notNull(),
    openMin: integer('open_min').notNull(),
    closeMin: integer('close_min').notNull(),
  },
  (t) => [primaryKey({ columns: [t.kind, t.weekday, t.openMin] })],
);

/** Days without work, of the shop or of one bay. */
export const closure = sqliteTable('closure', {
  id: text('id').primaryKey(),
  fromDay: text('from_day').$type<LocalDay>().notNull(),
  toDay: text('to_day').$type<LocalDay>().notNull(),
  bayId: text('bay_id').$type<BayId>(),
  reason: text('reason').notNull(),
});

/** Least and greatest minutes between a stage and the next. */
export const stageGap = sqliteTable('stage_gap', {
  stage: text('stage', { enum: STAGE_KINDS }).primaryKey(),
  leastMin: integer('least_min').notNull(),
  mostMin: integer('most_min'),
});

/** Bays in each other's dust; both null for all of them. */
export const dustPair = sqliteTable('dust_pair', {
  id: text('id').primaryKey(),
  bayA: text('bay_a').$type<BayId>(),
  bayB: text('bay_b').$type<BayId>(),
});

/** What a person can do. */
export const technician = sqliteTable('technician', {
  personId: text('person_id').$type<PersonId>().primaryKey(),
  skills: text('skills', { mode: 'json' }).$type<readonly Skill[]>().notNull(),
  speedPpm: integer('speed_ppm').$type<Ppm>().notNull(),
  revision: integer('revision').notNull().default(1),
});

export const shift = sqliteTable(
  'shift',
  {
    personId: text('person_id').$type<PersonId>().notNull(),
    weekday: integer('weekday').notNull(),
    startMin: integer('start_min').notNull(),
    endMin: integer('end_min').notNull(),
  },
  (t) => [primaryKey({ columns: [t.personId, t.weekday, t.startMin] })],
);

export const absence = sqliteTable('absence', {
  id: text('id').primaryKey(),
  personId: text('person_id').$type<PersonId>().notNull(),
  startMin: integer('start_min').$type<EpochMin>().notNull(),
  endMin: integer('end_min').$type<EpochMin>().notNull(),
  reason: text('reason').notNull(),
});

/** A car planned to stand in a place. */
export const stay = sqliteTable('stay', {
  id: integer('id').primaryKey(),
  jobId: text('job_id').$type<JobId>().notNull(),
  bayId: text('bay_id').$type<BayId>().notNull(),
  arriveMin: integer('arrive_min').$type<EpochMin>().notNull(),
  leaveMin: integer('leave_min').$type<EpochMin>().notNull(),
});

/** Work planned on a stage, one row per person. */
export const placement = sqliteTable('placement', {
  id: integer('id').primaryKey(),
  jobId: text('job_id').$type<JobId>().notNull(),
  stageId: text('stage_id').$type<StageId>().notNull(),
  bayId: text('bay_id').$type<BayId>().notNull(),
  personId: text('person_id').$type<PersonId>(),
  startMin: integer('start_min').$type<EpochMin>().notNull(),
  endMin: integer('end_min').$type<EpochMin>().notNull(),
  dwellEndMin: integer('dwell_end_min').$type<EpochMin>().notNull(),
});

export const planState = sqliteTable('plan_state', {
  id: integer('id').primaryKey(),
  revision: integer('revision').notNull(),
});

export const conflictSeen = sqliteTable('conflict_seen', {
  conflictKey: text('conflict_key').primaryKey(),
  personId: text('person_id').$type<PersonId>(),
  seenMs: integer('seen_ms').$type<EpochMs>().notNull(),
});
