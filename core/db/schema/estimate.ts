import { integer, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { InspectionId, JobId, PersonId } from '../../shared/ids.ts';
import type { EpochMs, Minor, Ppm } from '../../shared/units.ts';
import { ESTIMATE_BASES, WISHES } from '../../shared/views/estimate.ts';

/** Versions of a job's estimate; JSON columns hold what the view of an estimate holds. */
export const estimate = sqliteTable('estimate', {
  id: text('id').primaryKey(),
  jobId: text('job_id').$type<JobId>().notNull(),
  version: integer('version').notNull(),
  basis: text('basis', { enum: ESTIMATE_BASES }).notNull(),
  inspectionId: text('inspection_id').$type<InspectionId>(),
  wish: text('wish', { enum: WISHES }).notNull(),
  asked: text('asked').notNull(),
  panels: text('panels').notNull(),
  stages: text('stages').notNull(),
  factors: text('factors').notNull(),
  limits: text('limits').notNull(),
  price: text('price').notNull(),
  p20Min: integer('p20_min').notNull(),
  p50Min: integer('p50_min').notNull(),
  p80Min: integer('p80_min').notNull(),
  p95Min: integer('p95_min').notNull(),
  meanMin: integer('mean_min').notNull(),
  mu: real('mu').notNull(),
  sigma: real('sigma').notNull(),
  jobSigma: real('job_sigma').notNull(),
  totalMinor: integer('total_minor').$type<Minor>().notNull(),
  gainPpm: integer('gain_ppm').$type<Ppm>().notNull(),
  madeMs: integer('made_ms').$type<EpochMs>().notNull(),
  personId: text('person_id').$type<PersonId>(),
});
