import { z } from 'zod';
import { BAY_KINDS, MATERIALS, PANELS, SKILLS, STAGE_KINDS } from './vocabulary.ts';

/** An amount of one material in its base unit (µl, mg, mm, pieces). */
export const materialAmount = z.object({
  material: z.enum(MATERIALS),
  amount: z.int().min(0),
});
export type MaterialAmount = z.output<typeof materialAmount>;

/**
 * One stage of a job as the estimate plans it: what bookings stores, bays place, stock projects and billing charges.
 * Minutes are attended labour; `p20 ≤ p50 ≤ p80 ≤ p95`. `mu` and `sigma` are of log minutes (lognormal).
 * `estimatedMin` is the uncalibrated model's figure, kept so that learning compares like with like.
 */
export const stagePlan = z.object({
  kind: z.enum(STAGE_KINDS),
  panels: z.array(z.enum(PANELS)),
  estimatedMin: z.int().min(0),
  p20Min: z.int().min(0),
  p50Min: z.int().min(0),
  p80Min: z.int().min(0),
  p95Min: z.int().min(0),
  mu: z.number(),
  sigma: z.number().min(0),
  /** Unattended minutes that hold the place afterwards (cure, drying). */
  dwellMin: z.int().min(0),
  bayKinds: z.array(z.enum(BAY_KINDS)).min(1),
  skill: z.enum(SKILLS),
  crew: z.int().min(0).max(2),
  splittable: z.boolean(),
  materials: z.array(materialAmount),
  note: z.string().max(400),
});
export type StagePlan = z.output<typeof stagePlan>;
