import { z } from 'zod';
import { document, type Entry, read } from '../entry.ts';
import type { HalfWayShare, HandFacts, JobView } from '../views/bookings.ts';
import type { CardView } from '../views/card.ts';
import type { DeskView, PromiseAtRisk } from '../views/desk.ts';
import { JOB_LISTS, JOB_SORTS, type JobsPage } from '../views/jobList.ts';
import { customerId, jobId, vehicleId } from './bookingsInputs.ts';
import { idOf } from './inputs.ts';

const recordId = idOf<string>();

/** What is asked of jobs: the desk, lists, one job and its card. */
export const bookingsReads = {
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
  'bookings.recordFile': document()({
    needs: 'technician',
    about:
      'The record of a car that came or went as PDF; of a handover with what was done and how to look after it.',
    input: z.strictObject({ jobId, recordId }),
  }),
  'bookings.recordDraft': document()({
    needs: 'desk',
    about: 'An unsent message to the customer with that record attached.',
    input: z.strictObject({ jobId, recordId }),
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
} as const satisfies Readonly<Record<string, Entry>>;
