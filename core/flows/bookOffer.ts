import { refuseRule } from '../bays/commands/makeRoom.ts';
import { plannable } from '../bays/commands/offers.ts';
import { boardForChange, savePlans } from '../bays/commands/plan.ts';
import { chanceBy } from '../bays/rules/promise.ts';
import { readyOf } from '../bays/rules/promised.ts';
import { within } from '../bays/rules/validateTime.ts';
import { markBooked } from '../bookings/commands/jobs.ts';
import type { WriteCtx } from '../context.ts';
import type { baysEntries } from '../shared/catalogue/bays.ts';
import type { InputOf } from '../shared/entry.ts';
import { refuse } from '../shared/errors.ts';
import type { JobId } from '../shared/ids.ts';
import type { EpochMin, Ppm } from '../shared/units.ts';
import type { PlanFault } from '../shared/views/plan.ts';
import type { PlanChange } from '../shared/views/planChange.ts';

/**
 * Books an offer: the plan that was shown is checked again and kept, and drop-off and pick-up are agreed with the
 * chance simulated here and now. An earlier pick-up than the offer's is a bold promise when it is below the shop's level.
 * @throws PLAN_CHANGED · PLAN_BREAKS_RULE · JOB_NOT_PLANNABLE · PROMISE_BEFORE_DROP_OFF
 */
export function bookOffer(ctx: WriteCtx, input: InputOf<(typeof baysEntries)['bays.bookOffer']>): PlanChange {
  const live = boardForChange(ctx, input.planRevision, input.plan.jobId);
  const job = plannable(live, input.plan.jobId);
  const [first, last] = [input.plan.stays[0], input.plan.stays.at(-1)];
  if (!first || !last) return refuse('JOB_HAS_NO_STAGES', { number: job.number });
  const pickUpMin = (input.pickUpMin ?? last.leaveMin) as EpochMin;
  if (!within(live.board.desk, pickUpMin)) refuseRule(live, closedAt(job.id, job.who));
  const fresh = { ...job, promiseMin: null, start: job.start.kind === 'here' ? job.start : FREE };
  const jobs = new Map(live.board.jobs).set(job.id, fresh);
  const board = { ...live.board, jobs };
  const change = savePlans(ctx, { ...live, board }, [input.plan], new Set());
  const promisePpm = chanceBy(readyOf(board, fresh, { plan: input.plan }), pickUpMin) as Ppm;
  const bold = promisePpm < live.shop.settings.promises.levelPpm;
  const came = job.start.kind === 'here' ? (live.rows.get(job.id)?.dropOffMin ?? null) : null;
  const dropOffMin = came ?? first.arriveMin;
  markBooked(ctx, { jobId: job.id, dropOffMin, pickUpMin, promisePpm, bold });
  return change;
}

/** A pick-up for hours in which nobody hands cars over. */
function closedAt(jobId: JobId, who: string): PlanFault {
  return { rule: 'pickUpClosed', jobId, bayId: null, personId: null, words: { who } };
}
const FREE = { kind: 'free', notBeforeMin: 0 } as const;
