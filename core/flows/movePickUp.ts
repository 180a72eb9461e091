import { savePlans } from '../bays/commands/plan.ts';
import { placedAgain } from '../bays/rules/lay.ts';
import { holds } from '../bays/rules/mend.ts';
import type { Board, JobPlan, JobSpec } from '../bays/rules/model.ts';
import { occupancyOf } from '../bays/rules/occupancy.ts';
import { chanceBy } from '../bays/rules/promise.ts';
import { readyOf } from '../bays/rules/promised.ts';
import { markBooked } from '../bookings/commands/jobs.ts';
import type { WriteCtx } from '../context.ts';
import { refuse } from '../shared/errors.ts';
import type { JobId } from '../shared/ids.ts';
import type { EpochMin, Ppm } from '../shared/units.ts';
import { billedJob, datesOfWork } from '../views/billingParty.ts';
import { type LiveBoard, liveBoard } from '../views/liveBoard.ts';

/**
 * Moves the promise of a booked car to a pick-up that its customer agreed to, with the hours it has now. Its work that
 * waits is laid again so that the car can stand until then, where that is no less sure; else it keeps its places, and
 * the board says what does not fit in them.
 * @throws JOB_NOT_BOOKED where no pick-up for its work is agreed and planned
 * @throws PICK_UP_NOT_SURE where it is less sure than the shop's promises, or than the bold one that stood
 */
export function movePickUp(ctx: WriteCtx, jobId: JobId, pickUpMin: EpochMin): void {
  const live = liveBoard(ctx.db, { nowMs: ctx.now, jobId });
  const { row, dropOffMin, found, old } = needBooked(ctx, live, jobId);
  if (row.pickUpMin === pickUpMin) return;
  const job = { ...found, promiseMin: pickUpMin };
  const board = { ...live.board, jobs: new Map(live.board.jobs).set(jobId, job) };
  const { plan, promisePpm } = surest(board, job, [laidAgain(board, job, old), old]);
  const { levelPpm } = live.shop.settings.promises;
  const floor = row.bold === 1 ? Math.min(levelPpm, row.promisePpm ?? levelPpm) : levelPpm;
  if (promisePpm < floor) refuse('PICK_UP_NOT_SURE', { percent: Math.floor(promisePpm / 10_000) });
  if (plan !== old) savePlans(ctx, { ...live, board }, [plan], new Set([jobId]));
  markBooked(ctx, { jobId, dropOffMin, pickUpMin, promisePpm, bold: promisePpm < levelPpm });
}

function needBooked(ctx: WriteCtx, live: LiveBoard, jobId: JobId) {
  const row = live.rows.get(jobId);
  const found = live.board.jobs.get(jobId);
  const old = live.board.plans.get(jobId);
  const dated = datesOfWork(ctx.db, jobId);
  if (!dated || !row || !found || !old || row.dropOffMin === null || row.pickUpMin === null)
    return refuse('JOB_NOT_BOOKED', { number: billedJob(ctx.db, jobId).number });
  return { row, dropOffMin: row.dropOffMin, found, old };
}

/** What waits of the job in places that hold for its hours and until its promise; null where there are none. */
function laidAgain(board: Board, job: JobSpec, old: JobPlan): JobPlan | null {
  const occupancy = occupancyOf(board, new Set([job.id]), board.nowMin);
  const layer = { board, occupancy, consent: new Set<JobId>(), asked: new Set<JobId>() };
  const plan = placedAgain(layer, job, old);
  return plan && holds(board, [job], new Map(board.plans).set(job.id, plan)) ? plan : null;
}

/** The first of the plans with which the promise is the surest. */
function surest(
  board: Board,
  job: JobSpec,
  plans: readonly (JobPlan | null)[],
): { readonly plan: JobPlan; readonly promisePpm: Ppm } {
  const [best] = plans
    .filter((plan) => plan !== null)
    .map((plan) => ({
      plan,
      promisePpm: chanceBy(readyOf(board, job, { plan }), job.promiseMin ?? 0) as Ppm,
    }))
    .toSorted((a, b) => b.promisePpm - a.promisePpm);
  if (!best) throw new Error('a booked job has a plan');
  return best;
}
