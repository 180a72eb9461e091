import type { JobId } from '#core/shared/ids.ts';
import { type Random, seeded } from '#core/shared/random.ts';
import { begunPart, waits, wentOn } from './begun.ts';
import { handSet } from './byHand.ts';
import { type Board, finishOf, isOpenStage, type JobPlan, type JobSpec } from './model.ts';
import { type Occupancy, occupancyOf } from './occupancy.ts';
import { type Placement, placeJob } from './offers.ts';
import { better, brokenOf, isBehind, type Score, scoreOf } from './score.ts';

export type ReplanWish = {
  readonly seed: number;
  readonly iterations: number;
  /** Confirmed jobs whose drop-off or promise the customer agreed to change. */
  readonly consent: ReadonlySet<JobId>;
  /** Jobs that stay as they are. */
  readonly fixed?: ReadonlySet<JobId>;
};
/** Hears of the search as it goes; false ends it with the best plan so far. */
export type ReplanReport = (done: number, best: Score, boundLateMin: number) => boolean;
export type ReplanResult = {
  readonly plans: ReadonlyMap<JobId, JobPlan>;
  readonly before: Score;
  readonly after: Score;
  /** No plan of these jobs can be less late than this. */
  readonly boundLateMin: number;
  readonly iterations: number;
};

/**
 * Job-level large-neighbourhood search: from the plan as it is, take out a few jobs around a late one and put each
 * back at its exact earliest placement; worse plans are accepted now and then, less often as it goes on. The same
 * seed and number of iterations give the same plan. Confirmed drop-offs stand unless consent was given; a promise
 * that is missed counts as minutes late.
 */
export function replan(board: Board, wish: ReplanWish, report: ReplanReport = () => true): ReplanResult {
  const movable = [...board.jobs.values()].filter(
    (j) => j.stages.some(isOpenStage) && board.plans.has(j.id) && !wish.fixed?.has(j.id),
  );
  const boundLateMin = lateBound(board, movable, wish);
  const random = seeded(wish.seed);
  const occupancy = occupancyOf(board, new Set(), board.nowMin);
  const before = { ...scoreOf(board, movable, board.plans), broken: brokenOf(board, movable).length };
  let current = mended(board, occupancy, movable, wish);
  let score = scoreOf(board, movable, current);
  let [best, bestScore] = [current, score];
  let done = 0;
  for (; done < wish.iterations && movable.length > 0; done += 1) {
    if (done % 20 === 0 && !report(done, bestScore, boundLateMin)) break;
    const out = pickJobs(board, movable, current, random);
    const tried = reinsert(board, occupancy, current, out, wish);
    if (!tried) continue;
    const triedScore = scoreOf(board, movable, tried);
    if (accepts(triedScore, score, random, 1 - done / wish.iterations))
      [current, score] = [tried, triedScore];
    else swapBack(occupancy, tried, current, out);
    if (better(triedScore, bestScore) && holds(board, movable, tried))
      [best, bestScore] = [tried, triedScore];
  }
  return {
    plans: best,
    before,
    after: { ...bestScore, broken: brokenOf({ ...board, plans: best }, movable).length },
    boundLateMin,
    iterations: done,
  };
}

/**
 * The plans with those that do not hold taken out and put back where they fit. Where one fits nowhere it stays as it is,
 * and the others are laid around it: nobody is sent to two cars at once.
 */
function mended(
  board: Board,
  occupancy: Occupancy,
  movable: readonly JobSpec[],
  wish: ReplanWish,
): Map<JobId, JobPlan> {
  let open = brokenOf(board, movable).toSorted((a, b) => (a.promiseMin ?? 0) - (b.promiseMin ?? 0));
  for (;;) {
    for (const job of open) lift(board, occupancy, job);
    const plans = new Map(board.plans);
    const stuck =
      open.find((job) => !layAgain(board, occupancy, plans, job, wish)) ??
      open.find((job) => !holds(board, [job], plans));
    if (!stuck) return plans;
    for (const job of open) {
      occupancy.remove(plans.get(job.id) as JobPlan);
      occupancy.put(board.plans.get(job.id) as JobPlan);
    }
    open = open.filter((job) => job !== stuck);
  }
}

/** Whether plans can be kept as a whole: none of those that were moved breaks a rule. */
function holds(board: Board, jobs: readonly JobSpec[], plans: ReadonlyMap<JobId, JobPlan>): boolean {
  const moved = jobs.filter((job) => plans.get(job.id) !== board.plans.get(job.id));
  return brokenOf({ ...board, plans }, moved).length === 0;
}

/** Frees what a job still has to come; what has begun, and the place the car stands in, stay held. */
function lift(
  board: Board,
  occupancy: Occupancy,
  job: JobSpec,
  plan = board.plans.get(job.id) as JobPlan,
): void {
  occupancy.remove(plan);
  occupancy.put(begunPart(board, job, plan));
}

/** Lays a lifted job where it fits; false where it fits nowhere. */
function layAgain(
  board: Board,
  occupancy: Occupancy,
  plans: Map<JobId, JobPlan>,
  job: JobSpec,
  wish: ReplanWish,
): boolean {
  const old = plans.get(job.id) as JobPlan;
  occupancy.remove(old);
  const plan = placedAgain(board, occupancy, job, old, wish);
  if (plan) plans.set(job.id, plan);
  occupancy.put(plan ?? begunPart(board, job, old));
  return plan !== null;
}

function accepts(tried: Score, current: Score, random: Random, heat: number): boolean {
  if (better(tried, current)) return true;
  if (tried.behind > current.behind) return false;
  const loss = tried.lateMin - current.lateMin + (tried.touched - current.touched) * 5;
  return random() < Math.exp(-Math.max(1, loss) / (1 + 60 * heat)) * heat;
}

/** A job that is late or behind if there is one, and up to four that stand on the board around the same time. */
function pickJobs(
  board: Board,
  jobs: readonly JobSpec[],
  plans: ReadonlyMap<JobId, JobPlan>,
  random: Random,
): readonly JobSpec[] {
  const any = <T>(rows: readonly T[]): T | undefined => rows[Math.floor(random() * rows.length)];
  const late = jobs.filter(
    (j) =>
      finishOf(plans.get(j.id) as JobPlan) > (j.promiseMin ?? Number.POSITIVE_INFINITY) ||
      isBehind(board, j, plans.get(j.id) as JobPlan),
  );
  const centre = any(late.length > 0 && random() < 0.8 ? late : jobs);
  if (!centre) return [];
  const at = finishOf(plans.get(centre.id) as JobPlan);
  const near = jobs
    .filter((j) => j !== centre)
    .map((job) => ({ job, away: Math.abs(finishOf(plans.get(job.id) as JobPlan) - at) * (0.5 + random()) }))
    .sort((a, b) => a.away - b.away);
  const count = 1 + Math.floor(random() * 4);
  return [centre, ...near.slice(0, count).map((n) => n.job)];
}

/** Lifts the jobs and puts each back, in a random order that favours early promises; null when one fits nowhere. */
function reinsert(
  board: Board,
  occupancy: Occupancy,
  plans: ReadonlyMap<JobId, JobPlan>,
  jobs: readonly JobSpec[],
  wish: ReplanWish,
): Map<JobId, JobPlan> | null {
  const random = seeded(jobs.length * 7919 + jobs.reduce((sum, j) => sum + j.number, wish.seed));
  const order = jobs
    .map((job) => ({ job, key: (job.promiseMin ?? board.horizonMin) + random() * 1440 }))
    .sort((a, b) => a.key - b.key);
  const tried = new Map(plans);
  for (const { job } of order) lift(board, occupancy, job, plans.get(job.id));
  const laid = order.every(({ job }) => layAgain(board, occupancy, tried, job, wish));
  if (laid && holds(board, jobs, tried)) return tried;
  swapBack(occupancy, tried, plans, jobs);
  return null;
}

function swapBack(
  occupancy: Occupancy,
  from: ReadonlyMap<JobId, JobPlan>,
  to: ReadonlyMap<JobId, JobPlan>,
  jobs: readonly JobSpec[],
): void {
  for (const job of jobs) {
    occupancy.remove(from.get(job.id) as JobPlan);
    occupancy.put(to.get(job.id) as JobPlan);
  }
}

/** The job's open stages placed anew; what has begun or is done stays as it was. */
function placedAgain(
  board: Board,
  occupancy: Occupancy,
  job: JobSpec,
  old: JobPlan,
  wish: ReplanWish,
): JobPlan | null {
  const free = job.start.kind === 'agreed' && wish.consent.has(job.id);
  const start = free ? ({ kind: 'free', notBeforeMin: board.nowMin } as const) : job.start;
  const holdUntilMin = wish.consent.has(job.id) ? 0 : (job.promiseMin ?? 0);
  const { stages, only } = handSet(board, job, job.stages.filter(waits));
  const place = (by: typeof only): Placement | null =>
    placeJob(board, occupancy, { ...job, start }, { people: null, only: by, holdUntilMin, stages });
  const placement = kept(job, only.size === 0 ? [place(only)] : [place(only), place(new Map())]);
  if (!placement) return null;
  const plan = wentOn(job, old, placement.plan, board.nowMin);
  return samePlan(plan, old) ? old : plan;
}

/** With those whom the parts of a cut stage were given to, unless that is late and with others it is less so. */
function kept(job: JobSpec, [given, anybody]: readonly (Placement | null)[]): Placement | null {
  if (!given || !anybody) return given ?? anybody ?? null;
  const due = job.promiseMin ?? given.readyMin;
  return given.readyMin <= Math.max(due, anybody.readyMin) ? given : anybody;
}

export function samePlan(a: JobPlan, b: JobPlan): boolean {
  return JSON.stringify([a.stays, a.pieces]) === JSON.stringify([b.stays, b.pieces]);
}

/** Minutes late that no plan can avoid: each job alone on the empty board, at its earliest. */
function lateBound(board: Board, jobs: readonly JobSpec[], wish: ReplanWish): number {
  const empty = occupancyOf({ ...board, plans: new Map() }, new Set(), board.nowMin);
  let bound = 0;
  for (const job of jobs) {
    if (job.promiseMin === null) continue;
    const plan = placedAgain(board, empty, job, board.plans.get(job.id) as JobPlan, wish);
    if (plan) bound += Math.max(0, finishOf(plan) - job.promiseMin);
  }
  return bound;
}
