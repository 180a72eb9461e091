import type { PersonId } from '#core/shared/ids.ts';
import { waits, wentOn } from './begun.ts';
import { handSet } from './byHand.ts';
import { lastAtOrBelow } from './calendar.ts';
import type { Board, JobSpec } from './model.ts';
import { type Occupancy, occupancyOf } from './occupancy.ts';
import { type Placement, placeJob } from './offers.ts';

/** What is asked of a place for a car that has not come yet. */
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

/**
 * The same pick-up with the latest drop-off: a later drop-off never makes the pick-up earlier, so the handover slots
 * between them are halved, the next one tried first, since most often it is too late already.
 */
export function lastDropOff(board: Board, place: Placer, first: Placement, ask: Ask): Placement {
  const low = lastAtOrBelow(board.slots, arriveOf(first)) + 1;
  let best = first;
  let [from, to] = [low, lastAtOrBelow(board.slots, first.pickUpMin - 1)];
  for (let middle = low; from <= to; middle = (from + to) >> 1) {
    const later = place({ ...ask, notBeforeMin: board.slots[middle] ?? 0 });
    if (later && later.pickUpMin === first.pickUpMin) {
      best = later;
      from = middle + 1;
    } else to = middle - 1;
  }
  return best;
}
