import { clearPlan } from '../bays/commands/plan.ts';
import { sendHome as endVisit } from '../bookings/commands/car.ts';
import { wantsWork } from '../bookings/commands/jobs.ts';
import { needJob } from '../bookings/commands/needs.ts';
import { setStages } from '../bookings/commands/setStages.ts';
import { stateAfter } from '../bookings/rules/jobStates.ts';
import type { WriteCtx } from '../context.ts';
import {
  chooseHands,
  chooseLevels,
  type Made,
  makeAgain,
  makeFromInspection,
  makeProvisional,
} from '../estimate/commands/make.ts';
import type { bookingsEntries } from '../shared/catalogue/bookings.ts';
import type { estimateEntries } from '../shared/catalogue/estimate.ts';
import type { InputOf } from '../shared/entry.ts';
import type { JobId } from '../shared/ids.ts';
import { newestStages } from '../views/estimates.ts';
import { inspectionRow } from '../views/inspection.ts';

type In<N extends keyof typeof estimateEntries> = InputOf<(typeof estimateEntries)[N]>;

/** A first version as told, and the job can be offered dates. @throws NOTHING_FITS, NO_RATE, NOT_FOUND */
export function estimateAsTold(ctx: WriteCtx, input: In<'estimate.provisional'>): Made {
  return planned(ctx, input.jobId, makeProvisional(ctx, input));
}

/** A version from the inspection, and its dates. @throws NO_INSPECTION, NOTHING_FITS, NO_RATE */
export function estimateAsSeen(ctx: WriteCtx, input: In<'estimate.fromInspection'>): Made {
  return planned(ctx, input.jobId, makeFromInspection(ctx, input));
}

/** A version with the same levels as the car is known now, and its dates. @throws NO_ESTIMATE */
export function estimateAgain(ctx: WriteCtx, input: In<'estimate.again'>): Made {
  return planned(ctx, input.jobId, makeAgain(ctx, input));
}

/** The same version with one or two people on each stage, and its dates. @throws NO_ESTIMATE */
export function estimateByHands(ctx: WriteCtx, input: In<'estimate.hands'>): Made {
  return planned(ctx, input.jobId, chooseHands(ctx, input));
}

/** A version with the levels named, and its dates. @throws NO_ESTIMATE, FILM_TOO_THIN, FILM_BELOW_FLOOR, PANEL_NOT_ON_BODY */
export function estimateAsChosen(ctx: WriteCtx, input: In<'estimate.choose'>): Made {
  return planned(ctx, input.jobId, chooseLevels(ctx, input));
}

/**
 * The car goes home after the look: its places on the board are free again, and what comes back is the work.
 * @throws JOB_STATE when the car is not here · STAGES_OPEN when somebody is at work on it
 */
export function sendHome(ctx: WriteCtx, input: InputOf<(typeof bookingsEntries)['bookings.sendHome']>): void {
  endVisit(ctx, input);
  clearPlan(ctx, input.jobId);
  const estimate = newestStages(ctx.db, input.jobId);
  if (estimate && inspectionRow(ctx.db, input.jobId))
    wantsWork(ctx, { jobId: input.jobId, stages: estimate.stages });
  layStages(ctx, input.jobId);
}

function planned(ctx: WriteCtx, jobId: JobId, made: Made): Made {
  layStages(ctx, jobId);
  return made;
}

/**
 * The newest estimate's stages become the job's, so that it can be offered dates. What the customer agreed to and
 * what is booked stay until they agree anew; a visit that nobody has seen the car at yet is the look alone.
 */
function layStages(ctx: WriteCtx, jobId: JobId): void {
  const job = needJob(ctx.db, jobId);
  const estimate = newestStages(ctx.db, jobId);
  // The dates of a car that did not come bind nobody any more.
  const booked = job.dropOffMin !== null && job.state !== 'noShow';
  if (!estimate || job.planBasis === 'agreed' || booked) return;
  if (job.stoppedMs !== null || stateAfter(job.state, 'plan') === null) return;
  const lookOnly = job.purpose === 'inspectionVisit' && estimate.basis === 'provisional';
  const stages = lookOnly ? estimate.stages.filter((s) => s.kind === 'inspection') : estimate.stages;
  setStages(ctx, jobId, stages, { basis: estimate.basis });
}
