import { z } from 'zod';
import type { CustomerId, JobId, PersonId, StageId, VehicleId } from '../ids.ts';
import { TAX_CODES } from '../tax.ts';
import type { EpochMin, EpochMs, Minor, Ppm } from '../units.ts';
import { AGREED_WAYS, LATE_WEIGHTS, OVERRIDE_RULES, type SignaturePoint } from '../views/bookings.ts';
import { PANELS } from '../vocabulary.ts';

const id = z.string().min(1).max(40);

export const jobId = id.transform((v) => v as JobId);

export const stageId = id.transform((v) => v as StageId);

export const personId = id.transform((v) => v as PersonId);

export const customerId = id.transform((v) => v as CustomerId);

export const vehicleId = id.transform((v) => v as VehicleId);

const minute = z
  .int()
  .min(0)
  .max(100_000_000)
  .transform((v) => v as EpochMin);

export const instant = z
  .int()
  .min(0)
  .max(6_000_000_000_000)
  .transform((v) => v as EpochMs);

export const money = z
  .int()
  .min(0)
  .max(1_000_000_000_000)
  .transform((v) => v as Minor);

export const ppm = z
  .int()
  .min(0)
  .max(1_000_000)
  .transform((v) => v as Ppm);

export const revision = z.int().min(1);

export const panel = z.enum(PANELS);

export const reason = z.string().trim().min(3).max(400);

const point = z
  .tuple([z.int().min(0).max(1000), z.int().min(0).max(1000)])
  .transform((v): SignaturePoint => v);

export const wishes = {
  wish: z.string().trim().max(2000),
  ceilingMinor: money.nullable().optional(),
  ceilingMin: z.int().min(0).max(100_000).nullable().optional(),
  wantedByMin: minute.nullable().optional(),
  lateWeight: z.literal(LATE_WEIGHTS).optional(),
};

export const carRecord = {
  mileage: z.int().min(0).max(9_999_999).nullable(),
  mileageUnit: z.enum(['km', 'mi']),
  /** Answers a reading that is below the last one of this car. */
  lowerMileage: z.enum(['ask', 'right']).default('ask'),
  keyCount: z.int().min(0).max(20),
  belongings: z.string().trim().max(1000),
  damage: z.array(z.strictObject({ panel, note: z.string().trim().min(1).max(200) })).max(100),
  picturesRecord: z.boolean(),
  picturesPublish: z.boolean(),
  agreedBy: z.string().trim().min(1).max(120),
  agreedWay: z.enum(AGREED_WAYS),
  strokes: z.array(z.array(point).min(1).max(2000)).max(200).default([]),
  note: z.string().trim().max(1000).default(''),
};

/** What becomes of the deposit of a job that will not be done; null leaves it held. */
export const deposit = z
  .strictObject({
    outcome: z.enum(['kept', 'returned', 'moved']),
    feeMinor: money.nullable().default(null),
    feeTax: z.enum(TAX_CODES).default('standard'),
    way: z.enum(['cash', 'card', 'transfer']),
    toJobId: jobId.nullable().default(null),
    /** Answers a doubtful date of the documents this issues. */
    date: z.enum(['ask', 'today', 'lastDay']).default('ask'),
  })
  .nullable()
  .default(null);

/** A rule of the trade set aside: by whoever is signed in, with the reason. */
/** Rules of the trade that a named person sets aside, with why: only those they were told of. */
export const setAside = z.strictObject({ reason, rules: z.array(z.enum(OVERRIDE_RULES)).min(1) });
export type SetAside = z.output<typeof setAside>;
