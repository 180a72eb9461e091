import { type Random, seeded } from '#core/shared/random.ts';
import {
  copyInto,
  emptyLengths,
  emptyPlan,
  type Lengths,
  link,
  measure,
  type Plan,
  type Shop,
} from './graph.ts';
import { longestWay, type Move, makeMove, movesAway, movesInRows } from './moves.ts';

/** `starts` are those of the best plan, operation by operation. */
export type Best = { readonly makespan: number; readonly iterations: number; readonly starts: Float64Array };
type Search = {
  readonly shop: Shop;
  readonly random: Random;
  readonly plan: Plan;
  readonly now: Lengths;
  readonly free: Lengths;
  /** Until which round one may not come to stand before another again, and an operation not on a machine. */
  readonly orders: Int32Array;
  readonly places: Int32Array;
};

/** Rounds without a shorter plan after which the search goes on from another one. */
const PATIENCE = 4000;
const KEPT = 6;

/**
 * Tabu search on the blocks of a longest way, and over other machines where there are some. When nothing gets shorter
 * for long, it goes on from one of the best plans, shaken. Not the search of the re-plan: that moves whole cars, and a
 * makespan means nothing to it.
 */
export function search(shop: Shop, seed: number, most: number, goal: number, until: () => boolean): Best {
  const on = searchOf(shop, seed);
  const kept: { readonly plan: Plan; readonly makespan: number }[] = [];
  let best = on.now.makespan;
  let starts = on.now.heads.slice();
  let [local, since, k] = [best, 0, 0];
  const localPlan = copyOf(on.plan);
  for (; k < most && best > goal && !(k % 256 === 255 && until()); k += 1) {
    step(on, k, local);
    since += 1;
    if (on.now.makespan < local) {
      [local, since] = [on.now.makespan, 0];
      copyInto(localPlan, on.plan);
      if (local < best) [best, starts] = [local, on.now.heads.slice()];
    }
    if (since < PATIENCE) continue;
    kept.push({ plan: copyOf(localPlan), makespan: local });
    kept.sort((a, b) => a.makespan - b.makespan);
    kept.length = Math.min(kept.length, KEPT);
    shake(on, kept[Math.floor(on.random() * kept.length)]?.plan ?? localPlan, k);
    [local, since] = [on.now.makespan, 0];
    copyInto(localPlan, on.plan);
  }
  return { makespan: best, iterations: k, starts };
}

function searchOf(shop: Shop, seed: number): Search {
  const n = shop.choices.length;
  const plan = firstPlan(shop);
  const now = emptyLengths(n);
  measure(shop, plan, now);
  const [orders, places] = [new Int32Array(n * n), new Int32Array(n * shop.machines)];
  return { shop, random: seeded(seed), plan, now, free: emptyLengths(n), orders, places };
}

function copyOf(plan: Plan): Plan {
  const copy = emptyPlan(plan.on.length);
  copyInto(copy, plan);
  return copy;
}

/** One round: the best move that is not forbidden, or one of those that are when all are. */
function step(on: Search, k: number, local: number): void {
  const { shop, plan, now, random } = on;
  const way = longestWay(shop, plan, now, random);
  const moves = [
    ...movesInRows(shop, plan, now, way),
    ...way.flatMap((o) => movesAway(shop, plan, o, on.free)),
  ];
  let [chosen, ties]: [Move | null, number] = [null, 1];
  for (const move of moves) {
    if (chosen && move.most > chosen.most) continue;
    if (isForbidden(on, move, k) && move.most >= local) continue;
    ties = chosen && move.most === chosen.most ? ties + 1 : 1;
    if (random() * ties < 1) chosen = move;
  }
  const move = chosen ?? moves[Math.floor(random() * moves.length)];
  if (move) make(on, move, k);
}

function isForbidden({ shop, orders, places }: Search, move: Move, k: number): boolean {
  const n = shop.choices.length;
  if (move.passed.length === 0) return (places[move.o * shop.machines + move.machine] as number) > k;
  return move.passed.some((x) => (orders[move.wasBefore ? x * n + move.o : move.o * n + x] as number) > k);
}

/** Makes a move and forbids what it undid for a while. */
function make(on: Search, move: Move, k: number): void {
  const { shop, plan, now, random } = on;
  const n = shop.choices.length;
  const least = 10 + n / shop.machines / shop.machines;
  const until = k + Math.round(least * (1 + 0.5 * random()));
  if (move.passed.length === 0) on.places[move.o * shop.machines + (plan.on[move.o] as number)] = until;
  for (const x of move.passed) on.orders[move.wasBefore ? move.o * n + x : x * n + move.o] = until;
  const was = copyOf(plan);
  makeMove(plan, move);
  if (measure(shop, plan, now)) return;
  copyInto(plan, was);
  measure(shop, plan, now);
}

/** Some random moves away from a plan. */
function shake(on: Search, from: Plan, k: number): void {
  const { shop, plan, now, random } = on;
  copyInto(plan, from);
  measure(shop, plan, now);
  on.orders.fill(0);
  on.places.fill(0);
  for (let s = 6 + Math.floor(random() * 10); s > 0; s -= 1) {
    const way = longestWay(shop, plan, now, random);
    const o = way[Math.floor(random() * way.length)] as number;
    const moves = [...movesInRows(shop, plan, now, way), ...movesAway(shop, plan, o, on.free)];
    const move = moves[Math.floor(random() * moves.length)];
    if (move) make(on, move, k);
  }
}

/** Operations one after the other as soon as they can be, each where it is over first. */
function firstPlan(shop: Shop): Plan {
  const n = shop.choices.length;
  const plan = emptyPlan(n);
  const lasts = new Int32Array(shop.machines).fill(-1);
  const free = new Float64Array(shop.machines);
  const over = new Float64Array(n);
  const open = new Set(Array.from({ length: n }, (_, o) => o).filter((o) => (shop.before[o] ?? -1) < 0));
  while (open.size > 0) {
    let [o, machine, time, end] = [-1, 0, 0, Number.POSITIVE_INFINITY];
    for (const x of open)
      for (const c of shop.choices[x] ?? []) {
        const b = shop.before[x] ?? -1;
        const e = Math.max(free[c.machine] ?? 0, b < 0 ? 0 : (over[b] ?? 0)) + c.time;
        if (e < end) [o, machine, time, end] = [x, c.machine, c.time, e];
      }
    plan.on[o] = machine;
    plan.time[o] = time;
    link(plan, o, lasts[machine] as number, -1);
    lasts[machine] = o;
    free[machine] = end;
    over[o] = end;
    open.delete(o);
    const next = shop.after[o] ?? -1;
    if (next >= 0) open.add(next);
  }
  return plan;
}
