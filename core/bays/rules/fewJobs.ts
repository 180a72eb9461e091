import type { JobId } from '#core/shared/ids.ts';
import { waits } from './begun.ts';
import { handSet } from './byHand.ts';
import { type Heap, heapOf } from './heap.ts';
import { type Claim, firstMeeting, type Meeting } from './meeting.ts';
import type { JobPlan, JobSpec } from './model.ts';
import { type Cost, type Costed, cheapestPlan, compareCost, costOf, type Few, sumOf } from './onePlan.ts';
import { brokenOf } from './score.ts';

/** More jobs than this are too many to try every way out. */
export const FEW_JOBS = 8;

/**
 * What a search through all plans came to. `best` when it found one that is better than the plans it was given and is
 * itself the best; `none` when no better ones are left; `open` when it was stopped, or met cars that stand in each other's
 * way in a shop without a yard or one that stands where it is shut: then nothing is proved.
 */
export type Outcome =
  | { readonly kind: 'best'; readonly plans: ReadonlyMap<JobId, JobPlan> }
  | { readonly kind: 'none' }
  | { readonly kind: 'open' };

/** What a job may not claim, and its name. */
type Barred = { readonly claims: readonly Claim[]; readonly key: string };
/** Each job's cheapest plan without what it may not claim, and what all of them cost: nothing under this is cheaper. */
type Knot = {
  readonly barred: ReadonlyMap<JobId, Barred>;
  readonly plans: ReadonlyMap<JobId, Costed>;
  readonly cost: Cost;
};

/**
 * Looks for plans of a few jobs that are better, in the order of `better`, than those they have in `than`; every plan is when
 * that is null. Every job has its cheapest plan first, as if the others were not there: no plans together cost less. Where
 * some claim the same minute, one of them has to do without it: each way is looked into, the least costly first, until the
 * plans stand side by side. Exact because every plan that holds is left in one of the ways, the cheapest plan of one job is
 * exact, and costs add up. The way of branching is that of conflict-based search (Sharon, Stern, Felner & Sturtevant 2015,
 * Artificial Intelligence 219:40–66; from memory). `goOn` hears at every step how many were made.
 */
export function bestOfFew(
  few: Few,
  than: ReadonlyMap<JobId, JobPlan> | null,
  goOn: (steps: number) => boolean,
): Outcome {
  const most = than && sumOf(few.jobs.map((job) => costOf(few, job, than.get(job.id) as JobPlan)));
  const { fixed, root, without } = searchOf(few);
  const open: Heap<Knot> = heapOf((a, b) => compareCost(a.cost, b.cost));
  const seen = new Set<string>();
  const keep = (knot: Knot | null): void => {
    if (!knot || (most && compareCost(knot.cost, most) >= 0) || seen.has(keyOf(knot))) return;
    seen.add(keyOf(knot));
    open.push(knot);
  };
  keep(root());
  for (let steps = 1; ; steps += 1) {
    const knot = open.pop();
    if (!knot) return { kind: 'none' };
    if (!goOn(steps)) return { kind: 'open' };
    const meeting = firstMeeting(few.board, plansOf(knot), fixed);
    if (!meeting) return settled(few, knot);
    for (const bar of waysOut(few, meeting)) keep(without(knot, bar));
  }
}

/** Whether plans of these jobs can be searched through: neither dust nor cut stages tie one to another or to a person. */
export function canBeProved({ board, jobs }: Pick<Few, 'board' | 'jobs'>): boolean {
  return (
    jobs.length <= FEW_JOBS &&
    board.places.every((p) => p.dustWith.length === 0) &&
    jobs.every((job) => handSet(board, job, job.stages.filter(waits)).only.size === 0)
  );
}

function settled(few: Few, knot: Knot): Outcome {
  const plans = new Map(few.board.plans);
  for (const [id, { plan }] of knot.plans) plans.set(id, plan);
  return brokenOf({ ...few.board, plans }, few.jobs).length === 0
    ? { kind: 'best', plans }
    : { kind: 'open' };
}

type Bar = { readonly jobs: readonly JobId[]; readonly claim: Claim };

/** Where one has room, everybody but one of those who meet does without, whether or not that one takes it; else one does. */
function waysOut({ jobs }: Few, { claim, jobs: met, room }: Meeting): readonly Bar[] {
  if (room !== 1) return met.map((id) => ({ jobs: [id], claim }));
  const butFor = (has: JobId): readonly JobId[] => jobs.map((j) => j.id).filter((id) => id !== has);
  return met.map((id) => ({ jobs: butFor(id), claim }));
}

type Search = {
  readonly fixed: readonly JobPlan[];
  readonly root: () => Knot | null;
  readonly without: (knot: Knot, bar: Bar) => Knot | null;
};

function searchOf(few: Few): Search {
  const { board, jobs } = few;
  const ids = new Set(jobs.map((j) => j.id));
  const cheapest = rememberedPlans(few);
  const knotOf = (barred: Knot['barred'], before: Knot['plans'], anew: readonly JobSpec[]): Knot | null => {
    const plans = new Map(before);
    for (const job of anew) {
      const found = cheapest(job, barred.get(job.id) ?? FREE);
      if (!found) return null;
      plans.set(job.id, found);
    }
    return { barred, plans, cost: sumOf([...plans.values()].map((p) => p.cost)) };
  };
  return {
    fixed: [...board.plans.values()].filter((p) => !ids.has(p.jobId)),
    root: () => knotOf(new Map(), new Map(), jobs),
    without: ({ barred: before, plans }, bar) => {
      const barred = new Map(before);
      for (const id of bar.jobs) barred.set(id, barredToo(barred.get(id) ?? FREE, bar.claim));
      return knotOf(
        barred,
        plans,
        jobs.filter((j) => barred.get(j.id) !== before.get(j.id)),
      );
    },
  };
}

/** The same job without the same claims is come upon in many ways. */
function rememberedPlans(few: Few): (job: JobSpec, barred: Barred) => Costed | null {
  const known = new Map<string, Costed | null>();
  return (job, barred) => {
    const key = `${job.id} ${barred.key}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    const fresh = cheapestPlan(few, job, barred.claims);
    known.set(key, fresh);
    return fresh;
  };
}

const FREE: Barred = { claims: [], key: '' };

function barredToo(before: Barred, claim: Claim): Barred {
  if (before.claims.some((c) => c.id === claim.id && c.atMin === claim.atMin)) return before;
  const claims = [...before.claims, claim].sort((a, b) => a.atMin - b.atMin || (a.id < b.id ? -1 : 1));
  return { claims, key: claims.map((c) => `${c.id}@${c.atMin}`).join(' ') };
}

function plansOf(knot: Knot): readonly JobPlan[] {
  return [...knot.plans.values()].map((c) => c.plan);
}

function keyOf({ barred }: Knot): string {
  return [...barred]
    .map(([id, { key }]) => `${id}:${key}`)
    .sort()
    .join('|');
}
