import { layAgain, lift, type Plans, swapBack } from './lay.ts';
import { holds } from './mend.ts';
import type { JobPlan, JobSpec } from './model.ts';
import { type Cost, cheapestPlan, compareCost, costOf, type Few, sumOf } from './onePlan.ts';
import type { Search } from './search.ts';

/** Of so many jobs every order is tried: 720 of six. */
export const FEW_ORDERS = 6;

/**
 * The best plans that laying a few jobs one after the other can come to, whatever the order; `start` where none is better.
 * An order is left as soon as what is laid, and each of the rest by itself, cost as much as the best so far. `goOn` hears
 * how many were laid. The occupancy is left as the plans handed back have it.
 */
export function bestOrder(few: Few, search: Search, start: Plans, goOn: (laid: number) => boolean): Plans {
  const { board, occupancy, movable } = search;
  const planOf = (plans: Plans, job: JobSpec): JobPlan => plans.get(job.id) as JobPlan;
  const alone = new Map(movable.map((job) => [job, cheapestPlan(few, job, [])?.cost ?? NOTHING]));
  const plans = new Map(start);
  let best = { plans: start, cost: sumOf(movable.map((j) => costOf(few, j, planOf(start, j)))) };
  let laid = 0;
  const mayBeat = (spent: Cost, rest: readonly JobSpec[]): boolean =>
    compareCost(sumOf([spent, ...rest.map((j) => alone.get(j) ?? NOTHING)]), best.cost) < 0;
  const layRest = (left: readonly JobSpec[], spent: Cost): boolean => {
    if (left.length === 0 && holds(board, movable, plans)) best = { plans: new Map(plans), cost: spent };
    return left.every((job) => {
      const rest = left.filter((j) => j !== job);
      laid += 1;
      if (!goOn(laid)) return false;
      const found = layAgain(search, plans, job, true);
      const cost = sumOf([spent, costOf(few, job, planOf(plans, job))]);
      const further = !found || !mayBeat(cost, rest) || layRest(rest, cost);
      lift(search, job, planOf(plans, job));
      plans.set(job.id, planOf(start, job));
      return further;
    });
  };
  for (const job of movable) lift(search, job, planOf(start, job));
  layRest(movable, NOTHING);
  swapBack(occupancy, start, best.plans, movable);
  return best.plans;
}

const NOTHING: Cost = [0, 0, 0, 0];
