import { better } from '#core/shared/betterPlan.ts';
import type { JobId } from '#core/shared/ids.ts';
import type { Random } from '#core/shared/random.ts';
import { type Layer, layAgain, lift, type Plans, swapBack } from './lay.ts';
import { holds } from './mend.ts';
import { finishOf, type JobPlan, type JobSpec } from './model.ts';
import { isBehind, type Score, scoreOf } from './score.ts';

/** What is searched with: `stuck` are plans that do not hold and for which no place was found. */
export type Search = Layer & {
  readonly movable: readonly JobSpec[];
  readonly stuck: ReadonlySet<JobId>;
  readonly random: Random;
  /** Rounds done before, and with these; `heard` says whether to go on. */
  readonly from: number;
  readonly to: number;
  readonly heard: (done: number, best: Score) => boolean;
};
export type Reached = { readonly plans: Plans; readonly score: Score; readonly done: number };

/** The best plan that so many rounds find; the occupancy is left as that one has it. */
export function searched(search: Search, start: Plans): Reached {
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
  const laid = order.every(({ job }) => layAgain(search, tried, job, true));
  if (laid && holds(board, jobs, tried)) return tried;
  swapBack(occupancy, tried, plans, jobs);
  return null;
}
