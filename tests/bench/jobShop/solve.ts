import { type Shop, shopOf } from './graph.ts';
import { isPossible, plainBound } from './prove.ts';
import type { Instance } from './read.ts';
import { search } from './search.ts';

export type Solved = {
  readonly makespan: number;
  /** No plan can be shorter than this. */
  readonly bound: number;
  readonly proved: boolean;
  readonly iterations: number;
};
/** Work is capped by iterations and nodes; `until` may end it sooner. */
export type Effort = {
  readonly seed: number;
  readonly iterations: number;
  readonly nodes: number;
  readonly until?: () => boolean;
};

/**
 * Searches for a short plan and proves as much as it can: always open, the yard without end, moves that take no time.
 * Search and proof take turns, each time with more effort.
 */
export function solve(instance: Instance, effort: Effort): Solved {
  const shop = shopOf(instance);
  const until = effort.until ?? (() => false);
  const least = plainBound(shop);
  let best = { ...search(shop, effort.seed, 1000, least, until), proved: false };
  for (let turn = 1; best.makespan > least && best.iterations < effort.iterations && !until(); turn += 1) {
    const share = 4 ** turn;
    best = shortened(shop, best, Math.min(effort.nodes, 50 * share));
    if (best.proved) return { ...best, bound: best.makespan };
    const most = Math.min(effort.iterations - best.iterations, 1000 * share);
    const found = search(shop, effort.seed + turn, most, least, until);
    best = {
      ...best,
      makespan: Math.min(best.makespan, found.makespan),
      iterations: best.iterations + found.iterations,
    };
  }
  const bound = best.makespan > least ? raised(shop, least, best.makespan, effort.nodes) : least;
  return { ...best, bound, proved: bound === best.makespan };
}

type Best = { readonly makespan: number; readonly iterations: number; readonly proved: boolean };

/** Asks for a plan one minute shorter until there is none, or the nodes run out. */
function shortened(shop: Shop, best: Best, nodes: number): Best {
  let { makespan } = best;
  for (;;) {
    const found = isPossible(shop, makespan - 1, nodes);
    if (typeof found !== 'number') return { ...best, makespan, proved: found === 'none' };
    makespan = found;
  }
}

/** The bound raised as long as no plan that short is possible. */
function raised(shop: Shop, least: number, makespan: number, nodes: number): number {
  let [low, high] = [least, makespan - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (isPossible(shop, middle, Math.ceil(nodes / 20)) === 'none') low = middle + 1;
    else high = middle;
  }
  return low;
}
