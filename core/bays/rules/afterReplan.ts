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
  /** Clearly less sure than it should be: the desk has to want it. See `isBold`. */
  readonly bold: boolean;
};

/** With as many runs as the flags at the board, which show the same chance. */
const SEED = 20;
/** A promise that stands sinks a little with every car that is moved near it; that much is not worth a question. */
const SINKS_PPM = 50_000;

type Moved = { readonly board: Board; readonly plans: readonly JobPlan[]; readonly levelPpm: number };

/** Every moved job's promise, before and after; those in `agreed` are promised anew where their plan is late. */
export function promisesAfter(of: Moved, agreed: ReadonlySet<JobId>): ReadonlyMap<JobId, PromiseAfter> {
  const before = readyRuns(of, of.board);
  const rows = promisedAnew(of, agreed).map(({ jobId, was, ...anew }): [JobId, PromiseAfter] => {
    const beforePpm = chance(before, jobId, was);
    return [jobId, { ...anew, beforePpm, bold: isBold(of, anew, () => beforePpm) }];
  });
  return new Map(rows);
}

/**
 * The first moved job whose promise would be bold though nobody chose that, and how sure it is; null where there is none.
 * How sure promises were before is only worked out where one is less sure than usual that stays as it is.
 */
export function unwantedBold(
  of: Moved,
  agreed: ReadonlySet<JobId>,
  wanted: ReadonlySet<JobId>,
): { readonly jobId: JobId; readonly ppm: number | null } | null {
  if (of.plans.every(({ jobId }) => wanted.has(jobId) || promiseOf(of, jobId) === null)) return null;
  let before: Runs | undefined;
  const bold = ({ jobId, was, ...anew }: Anew): boolean =>
    isBold(of, anew, () => {
      before ??= readyRuns(of, of.board);
      return chance(before, jobId, was);
    });
  return promisedAnew(of, agreed).find((anew) => !wanted.has(anew.jobId) && bold(anew)) ?? null;
}

type Runs = ReadonlyMap<JobId, readonly number[]>;
/** A job's promise as the plans leave it; `was` is the pick-up promised before. */
type Anew = Pick<PromiseAfter, 'atMin' | 'ppm' | 'changes'> & {
  readonly jobId: JobId;
  readonly was: number | null;
};

function promisedAnew(of: Moved, agreed: ReadonlySet<JobId>): readonly Anew[] {
  const after = readyRuns(of, withPlans(of.board, of.plans));
  return of.plans.map((plan) => {
    const { jobId } = plan;
    const was = promiseOf(of, jobId);
    const changes = was !== null && agreed.has(jobId) && finishOf(plan) > was;
    const atMin = changes ? (plan.stays.at(-1)?.leaveMin ?? was) : was;
    return { jobId, was, atMin, changes, ppm: chance(after, jobId, atMin) };
  });
}

/**
 * One rule for every promise: the desk is asked where it ends less sure than the shop promises, and was made so by this
 * plan: it is promised anew, or it sinks by more than five points, however sure it was before.
 */
function isBold(
  { levelPpm }: Moved,
  { ppm, changes }: Omit<Anew, 'jobId' | 'was'>,
  beforePpm: () => number | null,
): boolean {
  if (ppm === null || ppm >= levelPpm) return false;
  return changes || ppm < (beforePpm() ?? 0) - SINKS_PPM;
}

/** When the moved jobs are ready on a board, over and over. */
function readyRuns(of: Moved, board: Board): Runs {
  return simulateReady(
    board,
    of.plans.map((p) => p.jobId),
    SEED,
  );
}

function chance(runs: Runs, id: JobId, atMin: number | null): number | null {
  return atMin === null ? null : chanceBy(runs.get(id) ?? [], atMin);
}

function promiseOf(of: Moved, id: JobId): number | null {
  return of.board.jobs.get(id)?.promiseMin ?? null;
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
