import { z } from 'zod';
import { document, type Entry, read, write } from '../entry.ts';
import type { CustomerId, JobId, PersonId, StageId, VehicleId } from '../ids.ts';
import { stagePlan } from '../stagePlan.ts';
import { TAX_CODES } from '../tax.ts';
import type { EpochMin, EpochMs, Minor, Ppm } from '../units.ts';
import {
  AGREED_WAYS,
  type CardView,
  type DeskView,
  type HalfWayShare,
  type HandFacts,
  JOB_LISTS,
  JOB_SORTS,
  type JobsPage,
  type JobView,
  PLAN_BASES,
  type PromiseAtRisk,
  PURPOSES,
  type SignaturePoint,
  type WorkConflict,
} from '../views/bookings.ts';
import type { DrawnForStage } from '../views/stock.ts';
import { PANELS } from '../vocabulary.ts';
import { drawInput } from './stockInputs.ts';

const id = z.string().min(1).max(40);
const jobId = id.transform((v) => v as JobId);
const stageId = id.transform((v) => v as StageId);
const personId = id.transform((v) => v as PersonId);
const customerId = id.transform((v) => v as CustomerId);
const vehicleId = id.transform((v) => v as VehicleId);
const minute = z
  .int()
  .min(0)
  .max(100_000_000)
  .transform((v) => v as EpochMin);
const instant = z
  .int()
  .min(0)
  .max(6_000_000_000_000)
  .transform((v) => v as EpochMs);
const money = z
  .int()
  .min(0)
  .max(1_000_000_000_000)
  .transform((v) => v as Minor);
const ppm = z
  .int()
  .min(0)
  .max(1_000_000)
  .transform((v) => v as Ppm);
const revision = z.int().min(1);
const panel = z.enum(PANELS);
const reason = z.string().trim().min(3).max(400);
const point = z
  .tuple([z.int().min(0).max(1000), z.int().min(0).max(1000)])
  .transform((v): SignaturePoint => v);

const wishes = {
  wish: z.string().trim().max(2000),
  ceilingMinor: money.nullable().optional(),
  ceilingMin: z.int().min(0).max(100_000).nullable().optional(),
  wantedByMin: minute.nullable().optional(),
};

const carRecord = {
  mileage: z.int().min(0).max(9_999_999).nullable(),
  mileageUnit: z.enum(['km', 'mi']),
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
const deposit = z
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
const setAside = z.strictObject({ reason }).optional();

export type JobOpened = { readonly jobId: JobId; readonly number: number };
export type StageStarted = { readonly conflicts: readonly WorkConflict[] };
export type StageFinished = {
  /** The job is ready: this was its last stage. */
  readonly ready: boolean;
  readonly attendedMs: number;
  readonly startedNext: StageId | null;
};

/** Commands and queries of the bookings area. */
export const bookingsEntries = {
  'bookings.job': read<JobView>()({
    needs: 'technician',
    about: 'Everything on one job: customer, vehicle, promise, stages with work, records, money.',
    input: z.strictObject({ jobId }),
    listens: [
      'jobs',
      'plan',
      'work',
      'stock',
      'quotes',
      'invoices',
      'payments',
      'customers',
      'vehicles',
      'paint',
    ],
  }),
  'bookings.jobs': read<JobsPage>()({
    needs: 'technician',
    about: 'Jobs of a list, searched by number, name, plate, vehicle or finding, sorted, a page at a time.',
    input: z.strictObject({
      list: z.enum(JOB_LISTS).nullable().default('open'),
      search: z.string().trim().max(120).default(''),
      sort: z.enum(JOB_SORTS).default('promise'),
      offset: z.int().min(0).max(1_000_000).default(0),
      limit: z.int().min(1).max(200).default(60),
    }),
    listens: ['jobs', 'plan', 'work', 'quotes', 'invoices', 'payments', 'customers', 'vehicles'],
  }),
  'bookings.jobsOf': read<JobsPage>()({
    needs: 'technician',
    about: 'All jobs of one customer or one vehicle, newest first.',
    input: z.strictObject({ customerId: customerId.optional(), vehicleId: vehicleId.optional() }),
    listens: ['jobs', 'plan', 'work', 'quotes', 'invoices', 'payments', 'customers', 'vehicles'],
  }),
  'bookings.desk': read<DeskView>()({
    needs: 'technician',
    about: 'Today: arriving, in the bays, going home, people waiting, hours.',
    input: z.strictObject({}),
    listens: [
      'jobs',
      'plan',
      'work',
      'bays',
      'people',
      'quotes',
      'invoices',
      'payments',
      'customers',
      'vehicles',
      'shop',
    ],
  }),
  'bookings.risks': read<readonly PromiseAtRisk[]>()({
    needs: 'technician',
    about: 'Promises that are not safe: simulated chance, why, and ways out that were tried on the board.',
    input: z.strictObject({}),
    listens: ['jobs', 'plan', 'work', 'bays', 'people', 'customers', 'vehicles', 'shop'],
  }),
  'bookings.card': read<CardView>()({
    needs: 'technician',
    about: 'The job card: stages with machine, pad, liquid, speeds, cautions, limits per panel, materials.',
    input: z.strictObject({ jobId }),
    listens: ['jobs', 'work', 'stock', 'paint', 'plan', 'customers', 'vehicles', 'shop'],
  }),
  'bookings.cardFile': document()({
    needs: 'technician',
    about: 'The job card as PDF.',
    input: z.strictObject({ jobId }),
  }),
  'bookings.hand': read<readonly HandFacts[]>()({
    needs: 'technician',
    about: 'What the strip says of the jobs that were taken in hand; jobs that are gone are left out.',
    input: z.strictObject({ jobIds: z.array(jobId).max(20) }),
    listens: ['jobs', 'plan', 'work', 'quotes', 'invoices', 'payments', 'customers', 'vehicles'],
  }),

  'bookings.sharesIfStopped': read<readonly HalfWayShare[]>()({
    needs: 'desk',
    about: 'What stopping a job half way now would bill of each stage, and by what that is reckoned.',
    input: z.strictObject({ jobId }),
    listens: ['jobs', 'work', 'plan'],
  }),

  'bookings.openJob': write<JobOpened>()({
    needs: 'desk',
    about: 'Opens a job for a customer and a vehicle with what they want.',
    input: z.strictObject({
      customerId,
      vehicleId,
      payerId: customerId.nullable().optional(),
      purpose: z.enum(PURPOSES).exclude(['redo']),
      ...wishes,
    }),
    touches: ['jobs'],
  }),
  'bookings.changeJob': write()({
    needs: 'desk',
    about: 'Changes what a job is for: wish, ceilings, wanted day, payer.',
    input: z.strictObject({
      jobId,
      revision,
      payerId: customerId.nullable().optional(),
      purpose: z.enum(PURPOSES).exclude(['redo']).optional(),
      ...wishes,
      wish: wishes.wish.optional(),
    }),
    touches: ['jobs'],
  }),
  'bookings.setStages': write<{ readonly stageIds: readonly StageId[] }>()({
    needs: 'desk',
    about: 'Plans the stages of a job anew; stages that were begun stay as they are.',
    input: z.strictObject({
      jobId,
      basis: z.enum(PLAN_BASES).exclude(['none']),
      stages: z.array(stagePlan).max(60),
    }),
    touches: ['jobs', 'plan', 'stock'],
  }),
  'bookings.arrive': write<{ readonly lateMin: number }>()({
    needs: 'technician',
    about:
      'Takes the car in: mileage, keys, belongings, damage that is there, picture consent, agreed how and by whom.',
    input: z.strictObject({ jobId, ...carRecord, atMs: instant.optional() }),
    touches: ['jobs', 'plan'],
  }),
  'bookings.sendHome': write()({
    needs: 'desk',
    about:
      'The car goes home after it was only looked at, with its keys, to somebody by name; its quote stays open.',
    input: z.strictObject({
      jobId,
      givenTo: z.string().trim().min(1).max(120).optional(),
      note: z.string().trim().max(400).default(''),
    }),
    touches: ['jobs', 'plan'],
  }),
  'bookings.startStage': write<StageStarted>()({
    needs: 'technician',
    about: 'Somebody starts work on a stage; a cure starts by itself.',
    input: z.strictObject({ stageId, personId: personId.optional(), setAside }),
    touches: ['jobs', 'work', 'plan'],
  }),
  'bookings.pauseStage': write<{ readonly attendedMs: number }>()({
    needs: 'technician',
    about: 'Pauses a stage, for one person or for all who are on it.',
    input: z.strictObject({ stageId, personId: personId.optional() }),
    touches: ['jobs', 'work'],
  }),
  'bookings.finishStage': write<StageFinished & { readonly drawn: DrawnForStage }>()({
    needs: 'technician',
    about: 'Ends a stage with what it used: time, draws and pads in one step.',
    input: z.strictObject({
      stageId,
      draws: z.array(drawInput).max(60).default([]),
      note: z.string().trim().max(1000).optional(),
    }),
    touches: ['jobs', 'work', 'plan', 'stock'],
  }),
  'bookings.panelDone': write<{ readonly panelsDone: number }>()({
    needs: 'technician',
    about: 'Ticks a panel of a stage off, or takes the tick back.',
    input: z.strictObject({ stageId, panel, done: z.boolean() }),
    touches: ['jobs', 'work'],
  }),
  'bookings.noteStage': write()({
    needs: 'technician',
    about: 'Notes something on a stage.',
    input: z.strictObject({ stageId, note: z.string().trim().min(1).max(1000) }),
    touches: ['jobs'],
  }),
  'bookings.dropStage': write()({
    needs: 'technician',
    about: 'Drops a stage that will not be done; time worked on it stays.',
    input: z.strictObject({ stageId, reason }),
    touches: ['jobs', 'work', 'plan', 'stock'],
  }),
  'bookings.typeTime': write<{ readonly workId: number }>()({
    needs: 'technician',
    about: 'Types in time worked that nobody had clocked.',
    input: z.strictObject({ stageId, personId, startMs: instant, endMs: instant }),
    touches: ['jobs', 'work'],
  }),
  'bookings.correctTime': write()({
    needs: 'technician',
    about: 'Corrects a stretch of work: its times or its person; or takes it out.',
    input: z.strictObject({
      workId: z.int().min(1),
      change: z.discriminatedUnion('to', [
        z.strictObject({ to: z.literal('times'), personId, startMs: instant, endMs: instant }),
        z.strictObject({ to: z.literal('removed') }),
      ]),
    }),
    touches: ['jobs', 'work'],
  }),
  'bookings.markReady': write()({
    needs: 'technician',
    about: 'Says that the car is ready although the last stage did not end by itself.',
    input: z.strictObject({ jobId }),
    touches: ['jobs', 'plan'],
  }),
  'bookings.handOver': write()({
    needs: 'desk',
    about: 'Hands the car over: the same record as at arrival; the job is collected.',
    input: z.strictObject({ jobId, ...carRecord, atMs: instant.optional() }),
    touches: ['jobs', 'plan'],
  }),
  'bookings.noShow': write()({
    needs: 'desk',
    about: 'The car did not come; its deposit may be decided with it. The job can be booked again.',
    input: z.strictObject({ jobId, reason: z.string().trim().max(400).default(''), deposit }),
    touches: ['jobs', 'plan', 'payments', 'invoices'],
  }),
  'bookings.cancelJob': write()({
    needs: 'desk',
    about: 'Cancels a job before work began, and decides its deposit: kept, returned or moved.',
    input: z.strictObject({ jobId, reason, deposit }),
    touches: ['jobs', 'plan', 'stock', 'payments', 'invoices', 'quotes'],
  }),
  'bookings.stopHalfWay': write<{ readonly sharesPpm: Readonly<Record<StageId, Ppm>> }>()({
    needs: 'desk',
    about: 'Stops a job half way and says what share of each stage was done, for billing.',
    input: z.strictObject({
      jobId,
      reason,
      shares: z
        .array(z.strictObject({ stageId, sharePpm: ppm }))
        .max(60)
        .default([]),
    }),
    touches: ['jobs', 'work', 'plan', 'stock'],
  }),
  'bookings.openRedo': write<JobOpened>()({
    needs: 'desk',
    about: 'Opens a redo under warranty, tied to the job it repeats.',
    input: z.strictObject({ jobId, wish: z.string().trim().min(1).max(2000) }),
    touches: ['jobs'],
  }),
} as const satisfies Readonly<Record<string, Entry>>;
