import { z } from 'zod';
import type { BayId, StageId } from '../ids.ts';
import type { EpochMin, Ppm } from '../units.ts';
import { PLAN_RULES } from '../views/plan.ts';
import { BAY_KINDS, SKILLS, STAGE_KINDS } from '../vocabulary.ts';
import { idOf, jobIdInput, localDayInput, personIdInput } from './inputs.ts';

export const bayIdInput = idOf<BayId>();
export const stageIdInput = idOf<StageId>();
/** Whole minutes since the epoch, between 1970 and the year 2200. */
export const epochMinInput = z.int().min(0).max(121_000_000) as unknown as z.ZodType<EpochMin, number>;
/** The new times that people agreed to, as they were told; other ones are not agreed to. */
export const toldInput = z
  .array(
    z.strictObject({
      jobId: jobIdInput,
      rule: z.enum(['promiseMissed', 'dropOffMoved']),
      newMin: epochMinInput,
    }),
  )
  .max(8)
  .optional();
const ppmInput = z.int().min(0).max(1_000_000) as unknown as z.ZodType<Ppm, number>;
const minuteOfDay = z.int().min(0).max(1440);
const name = z.string().trim().min(1).max(60);

export const newBay = z.strictObject({
  name,
  kind: z.enum(BAY_KINDS),
  capacity: z.int().min(1).max(50).default(1),
  setupMin: z.int().min(0).max(240).default(0),
  /** Today where it is not said. */
  startedDay: localDayInput.optional(),
});
export const hoursInput = z
  .array(
    z.strictObject({
      weekday: z.int().min(1).max(7),
      kind: z.enum(['shop', 'desk']),
      openMin: minuteOfDay,
      closeMin: minuteOfDay,
    }),
  )
  .min(1)
  .max(60);
export const technicianInput = z.strictObject({
  personId: personIdInput,
  skills: z.array(z.enum(SKILLS)).max(SKILLS.length),
  speedPpm: z.int().min(200_000).max(3_000_000).default(1_000_000),
  shifts: z
    .array(z.strictObject({ weekday: z.int().min(1).max(7), startMin: minuteOfDay, endMin: minuteOfDay }))
    .max(40),
});
export const closureInput = z.strictObject({
  fromDay: localDayInput,
  toDay: localDayInput,
  bayId: bayIdInput.nullable().default(null),
  reason: z.string().trim().max(120).default(''),
});
const gapMinutes = z.int().min(0).max(20_160);
/** Minutes between a stage and the next, two weeks at most. */
export const gapInput = z.strictObject({
  stage: z.enum(STAGE_KINDS),
  leastMin: gapMinutes.default(0),
  mostMin: gapMinutes.nullable().default(null),
});
/** Two bays; nothing = every bay. */
export const dustInput = z.strictObject({ pair: z.tuple([bayIdInput, bayIdInput]).optional() });
export const absenceInput = z.strictObject({
  personId: personIdInput,
  startMin: epochMinInput,
  endMin: epochMinInput,
  reason: z.string().trim().max(120).default(''),
});
const stayPlan = z.strictObject({ bayId: bayIdInput, arriveMin: epochMinInput, leaveMin: epochMinInput });
const piecePlan = z.strictObject({
  stageId: stageIdInput,
  bayId: bayIdInput,
  personIds: z.array(personIdInput).max(2),
  startMin: epochMinInput,
  endMin: epochMinInput,
  dwellEndMin: epochMinInput,
});
export const jobPlanInput = z.strictObject({
  jobId: jobIdInput,
  stays: z.array(stayPlan).max(60),
  pieces: z.array(piecePlan).max(120),
  agreed: z
    .strictObject({
      dropOffMin: epochMinInput,
      pickUpMin: epochMinInput,
      promisePpm: ppmInput.nullable(),
      bold: z.boolean(),
    })
    .optional(),
});
/** A fault that a plan had before it was changed, and may have again when it is put back. */
export const standingInput = z.strictObject({
  rule: z.enum(PLAN_RULES),
  jobId: jobIdInput,
  bayId: bayIdInput.nullable(),
  personId: personIdInput.nullable(),
  other: z.string().max(4000),
});
export const offersInput = z.strictObject({
  jobId: jobIdInput,
  notBeforeMin: epochMinInput.optional(),
  technicianId: personIdInput.optional(),
  day: localDayInput.optional(),
});
export const moveInput = z.strictObject({
  jobId: jobIdInput,
  stageIds: z.array(stageIdInput).min(1).max(40),
  bayId: bayIdInput,
  startMin: epochMinInput,
  personId: personIdInput.optional(),
  /** Takes the rest of the job along, as much earlier or later. */
  whole: z.boolean().optional(),
});
export const bookOfferInput = z.strictObject({
  planRevision: z.int().min(1),
  plan: jobPlanInput,
  /** The desk's own, earlier pick-up; kept as a bold promise. */
  pickUpMin: epochMinInput.optional(),
});
/** `runs`: how often the work is simulated for the promise; fewer is quicker and rougher. */
export const bookEarliestInput = z.strictObject({
  jobId: jobIdInput,
  notBeforeMin: epochMinInput.optional(),
  runs: z.int().min(10).max(5000).default(1000),
  /** Minutes after the planned finish to promise, by the desk's own choice; null = the slot that is sure enough. */
  marginMin: z.int().min(0).max(2880).nullable().default(null),
});
