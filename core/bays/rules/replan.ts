import type { JobId } from '#core/shared/ids.ts';
import { type Random, seeded } from '#core/shared/random.ts';
import { type Layer, layAgain, lift, type Plans, placedAgain, swapBack } from './lay.ts';
import { holds, mended, mendedByAsking } from './mend.ts';
import { type Board, finishOf, isOpenStage, type JobPlan, type JobSpec } from './model.ts';
import { occupancyOf } from './occupancy.ts';
import { better, brokenOf, isBehind, type Score, scoreOf } from './score.ts';
import { isPlanned } from './walkIn.ts';

export type ReplanWish = {
  readonly seed: number;
  readonly iterations: number;
  /** Confirmed jobs whose drop-off or promise the customer agreed to change. */
  readonly consent: ReadonlySet<JobId>;
  /** Jobs that stay as they are. */
  readonly fixed?: ReadonlySet<JobId>;
};
/** Hears of the search as it goes; false ends it with the best plan so far. */
export type ReplanReport = (done: number, best: Score, bound: LateBound) => boolean;
/** Minutes late, plain and weighed, that no plan can be without. */
export type LateBound = { readonly lateMin: number; readonly weighedMin: number };
export type ReplanResult = {
  readonly plans: Plans;
  readonly before: Score;
  readonly after: Score;
  /** No plan of these jobs can be less late than this. */
  readonly bound: LateBound;
  readonly iterations: number;
};

/** What is searched with: `stuck` are plans that do not hold and for which no place was found. */
type Search = Layer & {
  readonly movable: readonly JobSpec[];
  readonly stuck: ReadonlySet<JobId>;
  readonly random: Random;
  /** Rounds done before, and with these; `heard` says whether to go on. */
  readonly from: number;
  readonly to: number;
  readonly heard: (done: number, best: Score) => boolean;
};
type Reached = { readonly plans: Plans; readonly score: Score; readonly done: number };

/** Share of the rounds in which what is stuck may be freed by moving others, before anybody is asked. */
const BEFORE_ASKING = 0.3;

/**
 * Job-level large-neighbourhood search: from the plan as it is, take out a few jobs around a late one and put each
 * back at its exact earliest placement; worse plans are accepted now and then, less often as it goes on. The same
 * seed and number of iterations give the same plan. Plans that do not hold are mended first. Confirmed drop-offs and
 * promises stand, unless consent was given or nothing else mends a plan: then as few customers as can be would be asked.
 */
export function replan(board: Board, wish: ReplanWish, report: ReplanReport = () => true): ReplanResult {
  const movable = [...board.jobs.values()].filter(
    (j) => j.stages.some(isOpenStage) && isPlanned(board, j) && !wish.fixed?.has(j.id),
  );
  const { consent, seed, iterations } = wish;
  const bound = lateBound(board, movable, wish);
  const occupancy = occupancyOf(board, new Set(), board.nowMin);
  const layer: Layer = { board, occupancy, consent, asked: new Set() };
  const heard = (done: number, best: Score): boolean => report(done, best, bound);
  const all = {
    movable,
    random: seeded(seed),
    heard,
    from: 0,
    to: movable.length > 0 ? iterations : 0,
  };
  const scored = (plans: Plans, stuck: ReadonlySet<JobId>): Score => ({
    ...scoreOf(board, movable, plans, { consent, stuck }),
    broken: brokenOf({ ...board, plans }, movable).length,
  });
  const laid = mended(layer, movable, board.plans);
  const first = { ...layer, ...all, stuck: idsOf(laid.stuck) };
  const open = laid.stuck.length > 0 ? unstuck(first, laid.plans) : { ...first, plans: laid.plans };
  const best = searched(open, open.plans);
  return {
    plans: best.plans,
    before: scored(board.plans, new Set()),
    after: scored(best.plans, open.stuck),
    bound,
    iterations: best.done,
  };
}

/** Frees what is stuck by moving others, then by asking customers to come later; the search goes on from there. */
function unstuck(search: Search, start: Plans): Search & { readonly plans: Plans } {
  const tried = searched({ ...search, to: Math.floor(search.to * BEFORE_ASKING) }, start);
  const { plans, stuck, asked } = mendedByAsking(search, search.movable, tried.plans);
  return { ...search, plans, stuck: idsOf(stuck), asked, from: tried.done };
}

function idsOf(jobs: readonly JobSpec[]): ReadonlySet<JobId> {
  return new Set(jobs.map((j) => j.id));
}

/** The best plan that so many rounds find; the occupancy is left as that one has it. */
function searched(search: Search, start: Plans): Reached {
  const { board, occupancy, movable, random, from, to } = search;
  const score = (plans: Plans): Score => scoreOf(board, movable, plans, search);
  let current: Reached = { plans: start, score: score(start), done: from };
  let best = current;
  let done = from;
  for (; done < to; done += 1) {
    if (done % 20 === 0 && !search.heard(done, best.score)) break;
    const out = pickJobs(search, current.plans);
    const plans = reinsert(search, current.plans, out);
    if (!plans) continue;
    const tried = { plans, score: score(plans), done };
    if (better(tried.score, best.score) && holds(board, movable, plans)) best = tried;
    if (accepts(tried.score, current.score, random, 1 - done / to)) current = tried;
    else swapBack(occupancy, plans, current.plans, out);
  }
  swapBack(occupancy, current.plans, best.plans, movable);
  return { ...best, done };
}

function accepts(tried: Score, current: Score, random: Random, heat: number): boolean {
  if (better(tried, current)) return true;
  if (tried.broken > current.broken || tried.behind > current.behind || tried.asked > current.asked)
    return false;
  const loss = tried.weighedMin - current.weighedMin + (tried.touched - current.touched) * 5;
  return random() < Math.exp(-Math.max(1, loss) / (1 + 60 * heat)) * heat;
}

/** A job that is late, behind or stuck if there is one, and up to four that stand on the board around the same time. */
function pickJobs({ board, movable, stuck, random }: Search, plans: Plans): readonly JobSpec[] {
  const any = <T>(rows: readonly T[]): T | undefined => rows[Math.floor(random() * rows.length)];
  const late = movable.filter(
    (j) =>
      stuck.has(j.id) ||
      finishOf(plans.get(j.id) as JobPlan) > (j.promiseMin ?? Number.POSITIVE_INFINITY) ||
      isBehind(board, j, plans.get(j.id) as JobPlan),
  );
  const centre = any(late.length > 0 && random() < 0.8 ? late : movable);
  if (!centre) return [];
  const at = finishOf(plans.get(centre.id) as JobPlan);
  const near = movable
    .filter((j) => j !== centre)
    .map((job) => ({ job, away: Math.abs(finishOf(plans.get(job.id) as JobPlan) - at) * (0.5 + random()) }))
    .sort((a, b) => a.away - b.away);
  const count = 1 + Math.floor(random() * 4);
  return [centre, ...near.slice(0, count).map((n) => n.job)];
}

/** Lifts the jobs and puts each back, in a random order that favours early promises; null when one fits nowhere. */
function reinsert(search: Search, plans: Plans, jobs: readonly JobSpec[]): Plans | null {
  const { board, occupancy, random } = search;
  const order = jobs
    .map((job) => ({ job, key: (job.promiseMin ?? board.horizonMin) + random() * 1440 }))
    .sort((a, b) => a.key - b.key);
  const tried = new Map(plans);
  for (const { job } of order) lift(search, job, plans.get(job.id) as JobPlan);
  const laid = order.every(({ job }) => layAgain(search, tried, job));
  if (laid && holds(board, jobs, tried)) return tried;
  swapBack(occupancy, tried, plans, jobs);
  return null;
}

/** Minutes late that no plan can avoid: each job alone on the empty board, at its earliest. */
function lateBound(board: Board, jobs: readonly JobSpec[], { consent }: ReplanWish): LateBound {
  const empty = occupancyOf({ ...board, plans: new Map() }, new Set(), board.nowMin);
  let [lateMin, weighedMin] = [0, 0];
  for (const job of jobs) {
    if (job.promiseMin === null) continue;
    const layer = { board, occupancy: empty, consent, asked: new Set<JobId>() };
    const plan = placedAgain(layer, job, board.plans.get(job.id) as JobPlan);
    const late = plan ? Math.max(0, finishOf(plan) - job.promiseMin) : 0;
    lateMin += late;
    weighedMin += late * job.lateWeight;
  }
  return { lateMin, weighedMin };
}
