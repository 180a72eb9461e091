import { type Board, finishOf, type JobPlan, type JobSpec } from './model.ts';
import type { Placement } from './offers.ts';
import type { Dice, Memory } from './others.ts';
import { type Ask, arriveOf, type Placer, placerOf } from './placer.ts';
import { promiseSlot } from './promise.ts';
import { type Readier, readierOf } from './readier.ts';
import { RUNS, simulateReady } from './simulate.ts';

/** A place for a job with what can be promised of it. */
export type Promised = {
  readonly placement: Placement;
  /** Sorted simulated minutes of being ready, of exactly this placement. */
  readonly ready: readonly number[];
  /** The handover that is promised: the car can stand until then. */
  readonly pickUpMin: number;
};

/** How a job is placed on the board, and how placements of it may go. */
export type Means = { readonly place: Placer; readonly readyOf: Readier };

/** `memory` is of the other cars of the board before. Those beside a car that is here stand otherwise: they are nobody else's. */
export function meansFor(board: Board, job: JobSpec, memory: Memory): Means {
  const own = job.start.kind === 'here' ? { others: null } : memory;
  return { place: placerOf(board, job), readyOf: readierOf(board, job, DICE, own) };
}

const SEED = 20;
/** What all offers are thrown with. */
export const DICE: Dice = { seed: SEED, runs: RUNS };
/** A placement that has to stand for longer may work at other times, which is simulated again: so often at most. */
const ROUNDS = 3;

/**
 * Simulates a placement and lets the car stand until the first handover slot that is sure enough. Where its last place
 * is needed before that, the job is placed again so that it can stand; where it cannot, the promise is what it was.
 */
export function promisedAt(
  board: Board,
  start: Placement,
  levelPpm: number,
  { place, readyOf }: Means,
): Promised {
  const people = new Set(start.plan.pieces.flatMap((p) => p.personIds));
  const ask: Ask = { notBeforeMin: arriveOf(start), people: people.size === 0 ? null : people };
  let placement = start;
  let ready = readyOf(placement.plan);
  for (let round = 0; round < ROUNDS; round += 1) {
    const sure = promiseSlot(board, ready, levelPpm);
    const holdUntilMin = Math.max(placement.pickUpMin, sure);
    if (leaveOf(placement) >= holdUntilMin || holdUntilMin === Number.POSITIVE_INFINITY) break;
    const held = place({ ...ask, holdUntilMin });
    if (!held) break;
    if (!sameWork(held.plan, placement.plan)) ready = readyOf(held.plan);
    placement = held;
  }
  return { placement, ready, pickUpMin: leaveOf(placement) };
}

function leaveOf({ plan, pickUpMin }: Placement): number {
  return plan.stays.at(-1)?.leaveMin ?? pickUpMin;
}

function sameWork(a: JobPlan, b: JobPlan): boolean {
  return finishOf(a) === finishOf(b) && JSON.stringify(a.pieces) === JSON.stringify(b.pieces);
}

/** Simulated minutes of being ready for a job placed like this on the board. */
export function readyOf(
  board: Board,
  job: JobSpec,
  placement: Pick<Placement, 'plan'>,
  runs?: number,
): readonly number[] {
  const plans = new Map(board.plans).set(job.id, placement.plan);
  const jobs = new Map(board.jobs).set(job.id, job);
  return simulateReady({ ...board, plans, jobs }, [job.id], SEED, runs).get(job.id) ?? [];
}
