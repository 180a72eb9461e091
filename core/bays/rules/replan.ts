import type { JobId } from '#core/shared/ids.ts';
import { seeded } from '#core/shared/random.ts';
import { bestOfFew, canBeProved } from './fewJobs.ts';
import type { Layer, Plans } from './lay.ts';
import { mended, mendedByAsking } from './mend.ts';
import { type Board, isOpenStage, type JobSpec } from './model.ts';
import { withoutNeedlessMoves } from './needlessMoves.ts';
import { occupancyOf } from './occupancy.ts';
import { cheapestPlan, type Few, fewOf } from './onePlan.ts';
import { bestOrder, FEW_ORDERS } from './orders.ts';
import { brokenOf, lateBy, type Score, scoreOf } from './score.ts';
import { type Reached, type Search, searched } from './search.ts';
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
  /** Every way out was tried: no plans of these jobs that hold are better. */
  readonly proved: boolean;
};

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
  const few = fewOf(board, movable, consent);
  const bound = lateBound(few);
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
  const best = bestFound(few, open, open.plans);
  const plans = withoutNeedlessMoves(board, movable, best.plans);
  return {
    plans,
    before: scored(board.plans, new Set()),
    after: scored(plans, best.proved ? new Set() : open.stuck),
    bound,
    iterations: best.done,
    proved: best.proved,
  };
}

/** Rounds after which few jobs are searched through; the steps of that for each round asked, and the most that are kept. */
const BEFORE_PROOF = 200;
const STEPS_A_ROUND = 5;
const MOST_STEPS = 20_000;

/** The best plan that so many rounds find; of few jobs the best that there is, where every way out can be tried. */
function bestFound(few: Few, search: Search, start: Plans): Reached & { readonly proved: boolean } {
  const { from, to, movable } = search;
  if (movable.length === 0 || !canBeProved(few)) return { ...searched(search, start), proved: false };
  const rounds = searched({ ...search, to: Math.min(to, from + BEFORE_PROOF) }, start);
  const whole =
    rounds.score.behind === 0 && brokenOf({ ...few.board, plans: rounds.plans }, movable).length === 0;
  const most = Math.min(MOST_STEPS, to * STEPS_A_ROUND);
  const goOn = (steps: number): boolean =>
    steps <= most && (steps % 20 !== 1 || search.heard(rounds.done, rounds.score));
  const first = whole && movable.length <= FEW_ORDERS ? inBestOrder(few, search, rounds, goOn) : rounds;
  const outcome = bestOfFew(few, whole ? first.plans : null, goOn);
  if (outcome.kind === 'best') return { ...first, plans: outcome.plans, proved: true };
  if (outcome.kind === 'none') return { ...first, proved: whole };
  return { ...searched({ ...search, from: first.done }, first.plans), proved: false };
}

/** What is reached in rounds, or by laying all jobs in the order that is best. */
function inBestOrder(few: Few, search: Search, from: Reached, goOn: (laid: number) => boolean): Reached {
  const plans = bestOrder(few, search, from.plans, goOn);
  return { ...from, plans, score: scoreOf(few.board, search.movable, plans, search) };
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

/** Minutes late that no plan that holds can avoid: each job beside what cannot be moved, as if the others were not there. */
function lateBound(few: Few): LateBound {
  let [lateMin, weighedMin] = [0, 0];
  for (const job of few.jobs) {
    const found = cheapestPlan(few, job, []);
    const late = found ? lateBy(job, found.plan) : 0;
    lateMin += late;
    weighedMin += late * job.lateWeight;
  }
  return { lateMin, weighedMin };
}
