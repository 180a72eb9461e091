import type { JobId } from '#core/shared/ids.ts';
import { begunPart, waits, wentOn } from './begun.ts';
import { handSet } from './byHand.ts';
import { BY_CONSENT } from './consent.ts';
import { type Layer, samePlan, startOf } from './lay.ts';
import { type Claim, heldBy } from './meeting.ts';
import { type Board, finishOf, type JobPlan, type JobSpec } from './model.ts';
import { type Occupancy, occupancyOf } from './occupancy.ts';
import { placeJob } from './offers.ts';
import { comesOtherwise, isBehind, lateBy } from './score.ts';
import { faultsOfJob } from './validate.ts';

/** What one job's plan adds to a score, in its order: asked, weighed minutes late, touched, finish. */
export type Cost = readonly [number, number, number, number];
export type Costed = { readonly plan: JobPlan; readonly cost: Cost };

export function compareCost(a: Cost, b: Cost): number {
  return a[0] - b[0] || a[1] - b[1] || a[2] - b[2] || a[3] - b[3];
}

export function sumOf(costs: readonly Cost[]): Cost {
  return costs.reduce((a, b) => [a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3]], [0, 0, 0, 0]);
}

/** Jobs that may move, and what holds its room whatever becomes of them. */
export type Few = {
  readonly board: Board;
  readonly jobs: readonly JobSpec[];
  readonly consent: ReadonlySet<JobId>;
  /** The board with what has begun of these jobs, and the other plans; and what is taken on it. */
  readonly beside: Board;
  readonly occupancy: Occupancy;
};

export function fewOf(board: Board, jobs: readonly JobSpec[], consent: ReadonlySet<JobId>): Few {
  const plans = new Map(board.plans);
  for (const job of jobs) plans.set(job.id, begunPart(board, job, board.plans.get(job.id) as JobPlan));
  const beside = { ...board, plans };
  return { board, jobs, consent, beside, occupancy: occupancyOf(beside, new Set(), board.nowMin) };
}

/**
 * The plan of a job that adds least to a score, beside what holds its room anyway and without what it may not claim; null
 * when it has none. The plan as it is, the soonest as agreed, and the soonest with another drop-off are all there is to
 * weigh: of plans that ask as much of the customer, the sooner ready is never worse.
 */
export function cheapestPlan(few: Few, job: JobSpec, barred: readonly Claim[]): Costed | null {
  const { board, beside, occupancy } = few;
  const begun = beside.plans.get(job.id) as JobPlan;
  const closed = barred.map((claim) => asHeld(board, claim));
  occupancy.remove(begun);
  for (const plan of closed) occupancy.put(plan);
  const found = cheapestIn(few, job, barred);
  for (const plan of closed) occupancy.remove(plan);
  occupancy.put(begun);
  return found;
}

function cheapestIn(few: Few, job: JobSpec, barred: readonly Claim[]): Costed | null {
  const old = few.board.plans.get(job.id) as JobPlan;
  const plans = [
    !barred.some((c) => claims(old, c)) && stands(few.beside, job, old) ? old : null,
    soonestReady({ ...few, asked: new Set() }, job, old),
  ];
  const costed = (plan: JobPlan | null): readonly Costed[] =>
    plan ? [{ plan, cost: costOf(few, job, plan) }] : [];
  const agreed = cheapest(plans.flatMap(costed));
  if (agreed?.cost[0] === 0 || !mayBeAsked(few, job)) return agreed;
  const later = costed(soonestReady({ ...few, asked: new Set([job.id]) }, job, old));
  return cheapest(agreed ? [agreed, ...later] : later);
}

/** Whether a plan can stay as it is, whatever becomes of the others. */
function stands(beside: Board, job: JobSpec, old: JobPlan): boolean {
  return (
    !isBehind(beside, job, old) && faultsOfJob(beside, job, old).every((f) => BY_CONSENT.includes(f.rule))
  );
}

function soonestReady(layer: Layer, job: JobSpec, old: JobPlan): JobPlan | null {
  const { board, occupancy, consent } = layer;
  const { stages } = handSet(board, job, job.stages.filter(waits));
  const holdUntilMin = consent.has(job.id) ? 0 : (job.promiseMin ?? 0);
  const wish = { people: null, holdUntilMin, stages, readyFirst: true };
  const found = placeJob(board, occupancy, { ...job, start: startOf(layer, job) }, wish);
  if (!found) return null;
  const plan = wentOn(job, old, found.plan, board.nowMin);
  return samePlan(plan, old) ? old : plan;
}

/** A car that was to be here by now may still come: nobody rings up for that. */
function mayBeAsked({ board, consent }: Few, { id, start }: JobSpec): boolean {
  return start.kind === 'agreed' && start.dropOffMin >= board.nowMin && !consent.has(id);
}

export function costOf({ board, consent }: Few, job: JobSpec, plan: JobPlan): Cost {
  const old = board.plans.get(job.id) as JobPlan;
  const late = lateBy(job, plan);
  const touched = job.confirmed && plan !== old;
  const asked = touched && !consent.has(job.id) && (late > lateBy(job, old) || comesOtherwise(job, plan));
  return [asked ? 1 : 0, late * job.lateWeight, touched ? 1 : 0, finishOf(plan)];
}

function cheapest(plans: readonly Costed[]): Costed | null {
  return plans.reduce<Costed | null>((a, b) => (a && compareCost(a.cost, b.cost) <= 0 ? a : b), null);
}

const NOBODY = '' as JobId;

/** A claim as a plan of nobody that leaves no room beside it. */
function asHeld(board: Board, { what, id, atMin }: Claim): JobPlan {
  if (what === 'place') {
    const capacity = board.places.find((p) => p.id === id)?.capacity ?? 1;
    const stay = { bayId: id, arriveMin: atMin, leaveMin: atMin + 1 };
    return { jobId: NOBODY, pieces: [], stays: Array.from({ length: capacity }, () => stay) };
  }
  const at = { startMin: atMin, endMin: atMin + 1, dwellEndMin: atMin + 1 };
  const piece = { stageId: '' as never, bayId: '' as never, personIds: [id], ...at };
  return { jobId: NOBODY, stays: [], pieces: [piece] };
}

export function claims(plan: JobPlan, { what, id, atMin }: Claim): boolean {
  if (what === 'place')
    return plan.stays.some((s) => s.bayId === id && s.arriveMin <= atMin && atMin < s.leaveMin);
  return heldBy([plan], id).some((h) => h.startMin <= atMin && atMin < h.endMin);
}
