import { z } from 'zod';
import { problem } from './problems.ts';
import { BAY_KINDS, MATERIALS, PANELS, SKILLS, STAGE_KINDS } from './vocabulary.ts';

/** Beyond a hundred thousand minutes (ten weeks by day and night) nobody planned; the figure is a slip. */
const minutes = z.int().min(0).max(100_000);

/** An amount of one material in its base unit (µl, mg, mm, pieces). */
export const materialAmount = z.strictObject({
  material: z.enum(MATERIALS),
  amount: z.int().min(0).max(1_000_000_000),
});
export type MaterialAmount = z.output<typeof materialAmount>;

/**
 * One stage of a job as the estimate plans it: what bookings stores, bays place, stock projects and billing charges.
 * Minutes are attended labour of all its people together, so that two for an hour are two hours; `p20 ≤ p50 ≤ p80 ≤ p95`. `mu` and `sigma` are of log minutes (lognormal).
 * `estimatedMin` is the uncalibrated model's figure, kept so that learning compares like with like.
 */
export const stagePlan = z
  .strictObject({
    kind: z.enum(STAGE_KINDS),
    panels: z.array(z.enum(PANELS)),
    estimatedMin: minutes,
    p20Min: minutes,
    p50Min: minutes,
    p80Min: minutes,
    p95Min: minutes,
    mu: z.number().min(-50).max(50),
    sigma: z.number().min(0).max(10),
    /** Unattended minutes that hold the place afterwards (cure, drying). */
    dwellMin: minutes,
    bayKinds: z.array(z.enum(BAY_KINDS)).min(1),
    skill: z.enum(SKILLS),
    crew: z.int().min(0).max(2),
    splittable: z.boolean(),
    materials: z.array(materialAmount),
    note: z.string().max(400),
  })
  .refine((s) => s.p20Min <= s.p50Min, { message: problem('belowLesserShare'), path: ['p50Min'] })
  .refine((s) => s.p50Min <= s.p80Min, { message: problem('belowLesserShare'), path: ['p80Min'] })
  .refine((s) => s.p80Min <= s.p95Min, { message: problem('belowLesserShare'), path: ['p95Min'] });
export type StagePlan = z.output<typeof stagePlan>;
