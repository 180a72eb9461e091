import type { JobId } from '#core/shared/ids.ts';
import { asksFirst, BY_CONSENT } from './consent.ts';
import { type Board, finishOf, type JobPlan, type JobSpec } from './model.ts';
import { chanceBy, promiseSlot } from './promise.ts';
import { simulateReady } from './simulate.ts';
import { staysFor } from './stays.ts';
import { faultsOfJob } from './validate.ts';

/** What becomes of promises when a re-plan is applied. */

export type PromiseAfter = {
  /** The pick-up that holds then, and how sure it is; null for a job that was promised nothing. */
  readonly atMin: number | null;
  readonly ppm: number | null;
  readonly beforePpm: number | null;
  readonly changes: boolean;
  /** Less sure than the shop promises, and promised anew or sure before: the desk has to want it. */
  readonly bold: boolean;
};

const SEED = 20;
const RUNS = 400;
/** A promise that stands sinks a little with every car that is moved near it; that much is not worth a question. */
const SINKS_PPM = 50_000;

type Moved = { readonly board: Board; readonly plans: readonly JobPlan[]; readonly levelPpm: number };

/** Every moved job's promise, before and after; those in `agreed` are promised anew where their plan is late. */
export function promisesAfter(of: Moved, agreed: ReadonlySet<JobId>): ReadonlyMap<JobId, PromiseAfter> {
  const ids = of.plans.map((p) => p.jobId);
  const before = simulateReady(of.board, ids, SEED, RUNS);
  const after = simulateReady(withPlans(of.board, of.plans), ids, SEED, RUNS);
  const chance = (runs: typeof before, id: JobId, atMin: number | null): number | null =>
    atMin === null ? null : chanceBy(runs.get(id) ?? [], atMin);
  const rows = of.plans.map((plan): [JobId, PromiseAfter] => {
    const { jobId } = plan;
    const was = of.board.jobs.get(jobId)?.promiseMin ?? null;
    const changes = was !== null && agreed.has(jobId) && finishOf(plan) > was;
    const atMin = changes ? (plan.stays.at(-1)?.leaveMin ?? was) : was;
    const [ppm, beforePpm] = [chance(after, jobId, atMin), chance(before, jobId, was)];
    const wasSure = (beforePpm ?? 0) >= of.levelPpm;
    const sinks = changes || (wasSure && (ppm ?? 0) < (beforePpm ?? 0) - SINKS_PPM);
    return [jobId, { atMin, ppm, beforePpm, changes, bold: ppm !== null && ppm < of.levelPpm && sinks }];
  });
  return new Map(rows);
}

/** Jobs whose promise or drop-off the plans change: their people have to agree first. */
export function toBeAsked({ board, plans }: Omit<Moved, 'levelPpm'>): ReadonlySet<JobId> {
  const proposed = withPlans(board, plans);
  const asked = plans.filter((plan) => {
    const [job, old] = [board.jobs.get(plan.jobId), board.plans.get(plan.jobId)];
    return job !== undefined && old !== undefined && asksFirst(proposed, job, old, plan);
  });
  return new Set(asked.map((p) => p.jobId));
}

/**
 * The plans with each car that has to be promised anew standing until the first handover slot that is sure enough, where
 * it is or in the yard. Where it cannot stand so long, its plan is as it was, and what it promises is bold.
 */
export function heldUntilSure(of: Moved): readonly JobPlan[] {
  const asked = toBeAsked(of);
  const late = of.plans.filter((p) => asked.has(p.jobId) && isLate(of.board.jobs.get(p.jobId), p));
  if (late.length === 0) return of.plans;
  const proposed = withPlans(of.board, of.plans);
  const ready = simulateReady(
    proposed,
    late.map((p) => p.jobId),
    SEED,
    RUNS,
  );
  const plans = new Map(proposed.plans);
  for (const plan of late) {
    const sureMin = promiseSlot(of.board, ready.get(plan.jobId) ?? [], of.levelPpm);
    plans.set(plan.jobId, heldUntil({ ...of.board, plans }, plan, sureMin));
  }
  return of.plans.map((p) => plans.get(p.jobId) ?? p);
}

function heldUntil(board: Board, plan: JobPlan, sureMin: number): JobPlan {
  const job = board.jobs.get(plan.jobId);
  if (!job || !Number.isFinite(sureMin) || sureMin <= (plan.stays.at(-1)?.leaveMin ?? sureMin)) return plan;
  const held = { ...plan, stays: staysFor(board, { ...job, promiseMin: sureMin }, plan, plan.pieces) };
  return faultsOfJob(board, job, held).every((f) => BY_CONSENT.includes(f.rule)) ? held : plan;
}

function isLate(job: JobSpec | undefined, plan: JobPlan): boolean {
  return job !== undefined && job.promiseMin !== null && finishOf(plan) > job.promiseMin;
}

function withPlans(board: Board, plans: readonly JobPlan[]): Board {
  const all = new Map(board.plans);
  for (const plan of plans) all.set(plan.jobId, plan);
  return { ...board, plans: all };
}
