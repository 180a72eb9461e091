import type { PersonId } from '#core/shared/ids.ts';
import { waits, wentOn } from './begun.ts';
import { handSet } from './byHand.ts';
import { lastAtOrBelow, startFor } from './calendar.ts';
import { type Board, type JobSpec, labourAt } from './model.ts';
import { type Occupancy, occupancyOf } from './occupancy.ts';
import { type Placement, placeJob } from './offers.ts';

/** What is asked of a place for a car; of one that is here `notBeforeMin` and `comesEarly` say nothing. */
export type Ask = {
  /** Not dropped off before this. */
  readonly notBeforeMin: number;
  /** Only these may work on it; null = everybody. */
  readonly people?: ReadonlySet<PersonId> | null;
  /** It can stand there at least until here. */
  readonly holdUntilMin?: number;
  /** It comes as soon as it can wait somewhere, not as late as its work allows. */
  readonly comesEarly?: boolean;
};
export type Placer = (ask: Ask) => Placement | null;

/** Places what waits of a job at its earliest beside all other plans; a car that is here goes on from where it stands. */
export function placerOf(board: Board, job: JobSpec, beside?: Occupancy): Placer {
  const occupancy = beside ?? occupancyOf(board, new Set([job.id]), board.nowMin);
  const { stages, only } = handSet(board, job, job.stages.filter(waits));
  const old = job.start.kind === 'here' ? board.plans.get(job.id) : undefined;
  return ({ notBeforeMin, people = null, holdUntilMin = 0, comesEarly = false }) => {
    const from = { kind: 'free', notBeforeMin: Math.max(notBeforeMin, board.nowMin) } as const;
    const start = job.start.kind === 'here' ? job.start : from;
    const found = placeJob(
      board,
      occupancy,
      { ...job, start },
      { people, only, holdUntilMin, stages, comesEarly },
    );
    return found && old ? { ...found, plan: wentOn(job, old, found.plan, board.nowMin) } : found;
  };
}

/** When the car is dropped off, or came. */
export function arriveOf(placement: Placement): number {
  return placement.plan.stays[0]?.arriveMin ?? Number.POSITIVE_INFINITY;
}

/** How long the customer is without the car. */
export function awayOf(placement: Placement): number {
  return placement.pickUpMin - arriveOf(placement);
}

/** A job on a board, and how it is placed there. */
export type Placing = { readonly board: Board; readonly job: JobSpec; readonly place: Placer };

/**
 * The same pick-up with the latest drop-off: a later drop-off never makes the pick-up earlier, so the handover slots
 * that leave time for the work are halved.
 */
export function lastDropOff(on: Placing, first: Placement, ask: Ask): Placement {
  const { board, job, place } = on;
  if (job.start.kind === 'here') return first;
  const low = lastAtOrBelow(board.slots, arriveOf(first)) + 1;
  let best = first;
  let [from, to] = [low, lastAtOrBelow(board.slots, leavesTime(board, job, first.pickUpMin))];
  while (from <= to) {
    const middle = (from + to) >> 1;
    const later = place({ ...ask, notBeforeMin: board.slots[middle] ?? 0 });
    if (later && later.pickUpMin === first.pickUpMin) {
      best = later;
      // It may come later still than was asked: no slot up to then needs trying.
      from = lastAtOrBelow(board.slots, arriveOf(later)) + 1;
    } else to = middle - 1;
  }
  return best;
}

/** The last minute from which the shop is open for as long as the quickest people need by a minute. */
function leavesTime(board: Board, job: JobSpec, byMin: number): number {
  const quickest = Math.max(...board.technicians.map((t) => t.speedPpm));
  const { stages } = handSet(board, job, job.stages.filter(waits));
  const whole = stages.filter((s) => s.state === 'planned' && s.crew > 0);
  const labour = whole.reduce((sum, s) => sum + labourAt(s, [quickest]), 0);
  return startFor(board.open, byMin, labour);
}
