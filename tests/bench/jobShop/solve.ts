import { type Shop, shopOf } from './graph.ts';
import { plainBound } from './least.ts';
import { isPossible } from './prove.ts';
import type { Instance } from './read.ts';
import { search } from './search.ts';

export type Solved = {
  readonly makespan: number;
  /** No plan can be shorter than this. */
  readonly bound: number;
  readonly proved: boolean;
  readonly iterations: number;
};
/** Work is capped by iterations and nodes; `until` may end the search sooner, and `proveUntil` the proof. */
export type Effort = {
  readonly seed: number;
  readonly iterations: number;
  readonly nodes: number;
  readonly until?: () => boolean;
  readonly proveUntil?: () => boolean;
};

/** Beyond so many operations a proof is tried of the bound alone: nothing near the best plan would come of it. */
const PROVABLE = 120;
/**
 * Shares of the effort: search and proof take turns. Proving needs the best plan, or it looks for what the search finds
 * sooner; so the search begins anew several times before the long proof.
 */
const TURNS = [
  { searched: 0.001, proved: 0.001 },
  { searched: 0.02, proved: 0.02 },
  { searched: 0.25, proved: 0 },
  { searched: 0.25, proved: 0 },
  { searched: 0.25, proved: 0 },
  { searched: 0.229, proved: 1 },
];

/**
 * Searches for a short plan and proves as much as it can: always open, the yard without end, moves that take no time.
 * Search and proof take turns, each time with more effort.
 */
export function solve(instance: Instance, effort: Effort): Solved {
  const shop = shopOf(instance);
  const { until = never, proveUntil = never } = effort;
  let bound = plainBound(shop);
  let best: Best = { makespan: Number.POSITIVE_INFINITY, iterations: 0, proved: false };
  for (const [turn, share] of TURNS.entries()) {
    if (best.makespan <= bound) break;
    const most = Math.ceil(effort.iterations * share.searched);
    const found = search(shop, effort.seed + turn, most, bound, until);
    const makespan = Math.min(best.makespan, found.makespan);
    best = { ...best, makespan, iterations: best.iterations + found.iterations };
    if (turn === 0) bound = raised(shop, bound, makespan);
    if (best.makespan > bound && shop.choices.length <= PROVABLE)
      best = shortened(shop, best, Math.ceil(effort.nodes * share.proved), proveUntil);
    if (best.proved) bound = best.makespan;
  }
  return { ...best, bound, proved: bound === best.makespan };
}

const never = (): boolean => false;

type Best = { readonly makespan: number; readonly iterations: number; readonly proved: boolean };

/** Asks for a plan one minute shorter until there is none, or the nodes run out. */
function shortened(shop: Shop, best: Best, nodes: number, until: () => boolean): Best {
  let { makespan } = best;
  for (;;) {
    const found = isPossible(shop, makespan - 1, nodes, until);
    if (typeof found !== 'number') return { ...best, makespan, proved: found === 'none' };
    makespan = found;
  }
}

/** Looked at so far, a bound costs next to nothing. */
const FEW_NODES = 20;

/** The bound raised as long as it is shown quickly that no plan is that short. */
function raised(shop: Shop, least: number, makespan: number): number {
  let [low, high] = [least, makespan];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (isPossible(shop, middle, FEW_NODES, never) === 'none') low = middle + 1;
    else high = middle;
  }
  return low;
}
