import { z } from 'zod';
import { type Entry, write } from '../entry.ts';
import type { JobId, StageId } from '../ids.ts';
import { stagePlan } from '../stagePlan.ts';
import type { Ppm } from '../units.ts';
import { type LeftStage, PLAN_BASES, PURPOSES, type WorkConflict } from '../views/bookings.ts';
import type { DrawnForStage } from '../views/stockItem.ts';
import {
  carRecord,
  customerId,
  deposit,
  instant,
  jobId,
  panel,
  personId,
  ppm,
  reason,
  revision,
  setAside,
  stageId,
  vehicleId,
  wishes,
} from './bookingsInputs.ts';
import { bookingsReads } from './bookingsReads.ts';
import { drawInput } from './stockInputs.ts';

export type JobOpened = { readonly jobId: JobId; readonly number: number };

export type StageStarted = { readonly conflicts: readonly (WorkConflict | LeftStage)[] };

export type StageFinished = {
  /** The job is ready: this was its last stage. */
  readonly ready: boolean;
  readonly attendedMs: number;
  readonly startedNext: StageId | null;
};

/** Commands and queries of the bookings area. */
export const bookingsEntries = {
  ...bookingsReads,
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
    about: 'Changes what a job is for: wish, ceilings, wanted day, how much being late weighs, payer.',
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
    input: z.strictObject({ stageId, personId: personId.optional(), setAside: setAside.optional() }),
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
      setAside: setAside.optional(),
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
    about:
      'Hands the car over: the same record as at arrival; the job is collected. Things that were agreed beside the work leave the stock.',
    input: z.strictObject({
      jobId,
      ...carRecord,
      atMs: instant.optional(),
      /** The things that were agreed beside the work are handed over with it. */
      things: z.boolean().default(true),
    }),
    touches: ['jobs', 'plan', 'stock'],
  }),
  'bookings.noShow': write()({
    needs: 'desk',
    about:
      'The car did not come by its drop-off; its deposit may be decided with it. The job can be booked again.',
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
