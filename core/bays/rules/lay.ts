import type { JobId } from '#core/shared/ids.ts';
import { begunPart, waits, wentOn } from './begun.ts';
import { handSet } from './byHand.ts';
import { clearedPlan } from './clears.ts';
import type { Board, JobPlan, JobSpec, StartRule } from './model.ts';
import type { Occupancy } from './occupancy.ts';
import { type Placement, placeJob } from './offers.ts';

/** Jobs lifted off a board and laid on it again, one by one: what a re-plan is made of. */

export type Plans = ReadonlyMap<JobId, JobPlan>;
export type Layer = {
  readonly board: Board;
  readonly occupancy: Occupancy;
  /** Confirmed jobs whose drop-off or promise the customer agreed to change. */
  readonly consent: ReadonlySet<JobId>;
  /** Jobs that may come later than agreed, since their plan does not hold otherwise: their customers are asked. */
  readonly asked: ReadonlySet<JobId>;
};

/** Frees what a job still has to come; what has begun, and the place the car stands in, stay held. */
export function lift({ board, occupancy }: Layer, job: JobSpec, plan: JobPlan): void {
  occupancy.remove(plan);
  occupancy.put(begunPart(board, job, plan));
}

/** Lays a lifted job where it fits, and out of the bays as soon as it `clears` them; false where it fits nowhere. */
export function layAgain(layer: Layer, plans: Map<JobId, JobPlan>, job: JobSpec, clears = false): boolean {
  const { board, occupancy } = layer;
  const old = plans.get(job.id) as JobPlan;
  occupancy.remove(old);
  const placed = placedAgain(layer, job, old);
  const plan = placed && clears ? clearedPlan(board, occupancy, placed) : placed;
  if (plan) plans.set(job.id, plan);
  occupancy.put(plan ?? begunPart(board, job, old));
  return plan !== null;
}

/** Takes the plans of some jobs out and puts their plans of another time in. */
export function swapBack(occupancy: Occupancy, from: Plans, to: Plans, jobs: readonly JobSpec[]): void {
  for (const job of jobs) {
    occupancy.remove(from.get(job.id) as JobPlan);
    occupancy.put(to.get(job.id) as JobPlan);
  }
}

/** The job's open stages placed anew; what has begun or is done stays as it was. */
export function placedAgain(layer: Layer, job: JobSpec, old: JobPlan): JobPlan | null {
  const { board, occupancy, consent } = layer;
  const start = startOf(layer, job);
  const holdUntilMin = consent.has(job.id) ? 0 : (job.promiseMin ?? 0);
  const { stages, only } = handSet(board, job, job.stages.filter(waits));
  const place = (by: typeof only): Placement | null =>
    placeJob(board, occupancy, { ...job, start }, { people: null, only: by, holdUntilMin, stages });
  const placement = given(job, only.size === 0 ? [place(only)] : [place(only), place(new Map())]);
  if (!placement) return null;
  const plan = wentOn(job, old, placement.plan, board.nowMin);
  return samePlan(plan, old) ? old : plan;
}

/** Where a job's way begins when it is laid again: those who agreed or are asked may come at another time. */
export function startOf({ board, consent, asked }: Layer, { id, start }: JobSpec): StartRule {
  if (start.kind !== 'agreed') return start;
  if (consent.has(id)) return { kind: 'free', notBeforeMin: board.nowMin };
  return asked.has(id) ? { kind: 'free', notBeforeMin: Math.max(board.nowMin, start.dropOffMin) } : start;
}

/** With those whom the parts of a cut stage were given to, unless that is late and with others it is less so. */
function given(job: JobSpec, [own, anybody]: readonly (Placement | null)[]): Placement | null {
  if (!own || !anybody) return own ?? anybody ?? null;
  const due = job.promiseMin ?? own.readyMin;
  return own.readyMin <= Math.max(due, anybody.readyMin) ? own : anybody;
}

export function samePlan(a: JobPlan, b: JobPlan): boolean {
  return JSON.stringify([a.stays, a.pieces]) === JSON.stringify([b.stays, b.pieces]);
}
