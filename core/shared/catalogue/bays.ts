import { z } from 'zod';
import { document, type Entry, read, task, write } from '../entry.ts';
import type { BayId } from '../ids.ts';
import { problem } from '../problems.ts';
import { localDaysBetween } from '../time.ts';
import type { EpochMin } from '../units.ts';
import type { BoardView, PromiseNow } from '../views/bays.ts';
import type { BaysSetupView } from '../views/baysSetup.ts';
import type { OffersView } from '../views/offers.ts';
import type { MoveCheck, PlanFault, ReplanView } from '../views/plan.ts';
import type { PlanChange } from '../views/planChange.ts';
import {
  absenceInput,
  bayIdInput,
  bookEarliestInput,
  bookOfferInput,
  closureInput,
  dustInput,
  epochMinInput,
  gapInput,
  hoursInput,
  jobPlanInput,
  moveInput,
  newBay,
  offersInput,
  stageIdInput,
  standingInput,
  technicianInput,
  toldInput,
} from './baysInputs.ts';
import { jobIdInput, localDayInput, personIdInput, revisionInput } from './inputs.ts';

const planTopics = ['plan', 'jobs', 'stock', 'figures'] as const;
const setupTopics = ['bays', 'plan', 'shop'] as const;
const nothing = z.strictObject({});
/** Plans of several jobs, each named once. */
const jobPlansInput = z
  .array(jobPlanInput)
  .min(1)
  .max(500)
  .refine((all) => new Set(all.map((p) => p.jobId)).size === all.length, problem('jobTwice'));

/** Commands and queries of the bays area. */
export const baysEntries = {
  'bays.setup': read<BaysSetupView>()({
    needs: 'technician',
    about: 'Bays, opening hours, technicians with skills and shifts, closures and absences.',
    input: nothing,
    listens: ['bays', 'people', 'shop'],
  }),
  'bays.setBays': write<{ readonly bayIds: readonly BayId[] }>()({
    needs: 'owner',
    about: 'Adds the shop’s bays and yard in their order.',
    input: z.strictObject({ bays: z.array(newBay).min(1).max(60) }),
    touches: setupTopics,
  }),
  'bays.addBay': write<{ readonly bayId: BayId }>()({
    needs: 'owner',
    about: 'Adds one bay or yard, there from today on where no first day is said.',
    input: newBay,
    touches: setupTopics,
  }),
  'bays.changeBay': write<null>()({
    needs: 'owner',
    about:
      'Renames a bay, or changes its set-up minutes, how many cars it holds, its first day (before any car in it), or, while none is planned in it, what it is for.',
    input: z.strictObject({
      bayId: bayIdInput,
      revision: revisionInput,
      ...newBay.pick({ name: true, kind: true, startedDay: true }).partial().shape,
      capacity: z.int().min(1).max(50).optional(),
      setupMin: z.int().min(0).max(240).optional(),
    }),
    touches: setupTopics,
  }),
  'bays.endBay': write<null>()({
    needs: 'owner',
    about: 'Ends a bay after its last day.',
    input: z.strictObject({ bayId: bayIdInput, revision: revisionInput, lastDay: localDayInput }),
    touches: setupTopics,
  }),
  'bays.setOpeningHours': write<null>()({
    needs: 'owner',
    about: 'Sets when the shop works and when the desk hands cars over, for the whole week.',
    input: z.strictObject({ hours: hoursInput }),
    touches: setupTopics,
  }),
  'bays.setTechnician': write<null>()({
    needs: 'owner',
    about: 'Sets what a person can do, at what pace, and when they work.',
    input: technicianInput,
    touches: setupTopics,
  }),
  'bays.addClosure': write<{ readonly id: string }>()({
    needs: 'owner',
    about: 'Closes the shop, or one bay, for some days.',
    input: closureInput,
    touches: setupTopics,
  }),
  'bays.dropClosure': write<null>()({
    needs: 'owner',
    about: 'Takes a closure back.',
    input: z.strictObject({ id: z.string().max(40) }),
    touches: setupTopics,
  }),
  'bays.setGap': write<null>()({
    needs: 'owner',
    about: 'Sets the least and the greatest time between a stage and the next.',
    input: gapInput,
    touches: setupTopics,
  }),
  'bays.dropGap': write<null>()({
    needs: 'owner',
    about: 'Lets the stage after another begin at any time.',
    input: gapInput.pick({ stage: true }),
    touches: setupTopics,
  }),
  'bays.addDust': write<null>()({
    needs: 'owner',
    about:
      'Puts two bays, or all, in each other’s dust: no cutting in one while a coating is fresh in the other.',
    input: dustInput,
    touches: setupTopics,
  }),
  'bays.dropDust': write<null>()({
    needs: 'owner',
    about: 'Lets work in two bays go on side by side again.',
    input: z.strictObject({ id: z.string().max(40) }),
    touches: setupTopics,
  }),
  'bays.addAbsence': write<{ readonly id: string }>()({
    needs: 'desk',
    about: 'Records that somebody is away.',
    input: absenceInput,
    touches: setupTopics,
  }),
  'bays.dropAbsence': write<null>()({
    needs: 'desk',
    about: 'Takes an absence back.',
    input: z.strictObject({ id: z.string().max(40) }),
    touches: setupTopics,
  }),
  'bays.board': read<BoardView>()({
    needs: 'technician',
    about: 'The board: places, people, cars and work of some days, with promises and conflicts.',
    input: z
      .strictObject({ fromDay: localDayInput, toDay: localDayInput })
      .refine((r) => localDaysBetween(r.fromDay, r.toDay) <= 366, {
        message: problem('overOneYear'),
        path: ['toDay'],
      }),
    listens: ['plan', 'bays', 'jobs', 'work', 'people', 'shop'],
  }),
  'bays.promises': read<readonly PromiseNow[]>()({
    needs: 'technician',
    about: 'How sure each promise is now.',
    input: z.strictObject({ jobId: jobIdInput.optional() }),
    listens: ['plan', 'bays', 'jobs', 'work', 'people', 'shop'],
  }),
  'bays.offers': read<OffersView>()({
    needs: 'desk',
    about: 'Dated offers for a job: drop-off, pick-up, how sure, where, by whom, and why not earlier.',
    input: offersInput,
    listens: ['plan', 'bays', 'jobs', 'work', 'people', 'shop'],
  }),
  'bays.bookOffer': write<PlanChange>()({
    needs: 'desk',
    about: 'Books an offer: the plan is kept and drop-off and pick-up are agreed.',
    input: bookOfferInput,
    touches: planTopics,
  }),
  'bays.bookEarliest': write<{ readonly dropOffMin: EpochMin; readonly pickUpMin: EpochMin }>()({
    needs: 'desk',
    about: 'Books the first place that fits, for somebody who takes whatever comes first; also for imports.',
    input: bookEarliestInput,
    touches: planTopics,
  }),
  'bays.checkMove': read<MoveCheck>()({
    needs: 'desk',
    about: 'Whether a block of stages may move there; if not, the rule and the nearest places that work.',
    input: moveInput,
    listens: ['plan', 'bays', 'jobs', 'work'],
  }),
  'bays.move': write<PlanChange>()({
    needs: 'desk',
    about: 'Moves a block of stages to another place, time or person. Broken promises need consent.',
    input: z.strictObject({
      ...moveInput.shape,
      planRevision: z.int().min(1),
      consent: z.boolean().default(false),
      told: toldInput,
    }),
    touches: planTopics,
  }),
  'bays.swap': write<PlanChange>()({
    needs: 'desk',
    about: 'Swaps the places and times of two blocks.',
    input: z
      .strictObject({
        planRevision: z.int().min(1),
        a: z.strictObject({ jobId: jobIdInput, stageIds: z.array(stageIdInput).min(1).max(40) }),
        b: z.strictObject({ jobId: jobIdInput, stageIds: z.array(stageIdInput).min(1).max(40) }),
        consent: z.boolean().default(false),
        told: toldInput,
      })
      .refine((s) => s.a.jobId !== s.b.jobId, {
        message: problem('sameJob'),
        path: ['b', 'jobId'],
      }),
    touches: planTopics,
  }),
  'bays.split': write<PlanChange>()({
    needs: 'desk',
    about: 'Splits a stage at a minute, and hands the rest to somebody else if named.',
    input: z.strictObject({
      planRevision: z.int().min(1),
      jobId: jobIdInput,
      stageId: stageIdInput,
      atMin: epochMinInput,
      personId: personIdInput.optional(),
    }),
    touches: planTopics,
  }),
  'bays.restorePlans': write<PlanChange>()({
    needs: 'desk',
    about: 'Puts plans back as they were: the undo of a move, swap, split or re-plan.',
    input: z.strictObject({
      planRevision: z.int().min(1),
      plans: jobPlansInput,
      /** What these plans broke already when they were changed. */
      standing: z.array(standingInput).max(2000).default([]),
      /** These plans as they were left: refused where one was planned again since. Not looked at if empty. */
      left: z.array(jobPlanInput).max(500).default([]),
    }),
    touches: planTopics,
  }),
  'bays.replan': task<ReplanView>()({
    needs: 'desk',
    about: 'Looks for a better plan of all work not begun. Nothing is changed.',
    input: z.strictObject({
      seed: z.int().min(1).max(1_000_000).default(1),
      iterations: z.int().min(1).max(200_000).default(1500),
      /** Ends the look after so long, if it has not ended before. */
      seconds: z.int().min(1).max(600).optional(),
      consent: z.array(jobIdInput).max(200).default([]),
      /** Jobs that stay as they are. */
      fixed: z.array(jobIdInput).max(200).default([]),
    }),
  }),
  'bays.applyReplan': write<PlanChange>()({
    needs: 'desk',
    about: 'Applies a re-plan as a whole, or not at all.',
    input: z.strictObject({
      planRevision: z.int().min(1),
      plans: jobPlansInput,
      consent: z.array(jobIdInput).max(200).default([]),
      /** Jobs whose promise may be less sure than the shop's promises are. */
      bold: z.array(jobIdInput).max(200).default([]),
      /** The minute it was worked out for; now if left out. */
      nowMin: epochMinInput.optional(),
    }),
    touches: planTopics,
  }),
  'bays.faults': read<readonly PlanFault[]>()({
    needs: 'technician',
    about: 'Every rule that the present plan breaks.',
    input: nothing,
    listens: ['plan', 'bays', 'jobs', 'work', 'people', 'shop'],
  }),
  'bays.noteConflict': write<null>()({
    needs: 'desk',
    about: 'Takes note of a conflict; it stays in the record.',
    input: z.strictObject({ key: z.string().min(1).max(200) }),
    touches: ['plan'],
  }),
  'bays.calendarFile': document()({
    needs: 'desk',
    about: 'Drop-offs and pick-ups as an iCalendar file, of one job or of all that are booked.',
    input: z.strictObject({ jobId: jobIdInput.optional() }),
  }),
} as const satisfies Readonly<Record<string, Entry>>;
