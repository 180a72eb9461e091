import { type Random, seeded } from '#core/shared/random.ts';
import { type Lengths, lengthsOf, type Plan, type Shop } from './graph.ts';

export type Best = { readonly makespan: number; readonly iterations: number };
type Move = {
  readonly o: number;
  readonly machine: number;
  readonly time: number;
  readonly at: number;
  readonly most: number;
};

/**
 * Tabu search: an operation on a longest way is taken out and put where the longest way through it is least, on any of
 * its machines (after Mastrolilli & Gambardella 2000, from memory). When nothing gets better for long, it goes on from
 * the best, shaken. Not the search of the re-plan: that moves whole cars, and a makespan means nothing to it.
 */
export function search(shop: Shop, seed: number, most: number, goal: number, until: () => boolean): Best {
  const random = seeded(seed);
  let plan = firstPlan(shop);
  let now = lengthsOf(shop, plan) as Lengths;
  let best = { makespan: now.makespan, plan: copied(plan) };
  const tabu = new Map<number, number>();
  let [since, k] = [0, 0];
  for (; k < most && best.makespan > goal && !(k % 64 === 63 && until()); k += 1) {
    const move = chooseMove(shop, plan, now, tabu, { k, best: best.makespan, random });
    const then = move && moved(shop, plan, move);
    if (move)
      tabu.set(
        then ? then.from : keyAt(shop, plan, move),
        k + 8 + Math.floor(random() * (shop.choices.length / 5 + 4)),
      );
    if (then) now = then.lengths;
    since += 1;
    if (now.makespan < best.makespan) [best, since] = [{ makespan: now.makespan, plan: copied(plan) }, 0];
    if (since < 600 && move) continue;
    plan = copied(best.plan);
    for (let s = 3 + Math.floor(random() * 8); s > 0; s -= 1) shake(shop, plan, random);
    now = lengthsOf(shop, plan) as Lengths;
    tabu.clear();
    since = 0;
  }
  return { makespan: best.makespan, iterations: k };
}

/** Where an operation stands: its machine and who is before it there. */
function tabuKey(shop: Shop, plan: Plan, o: number): number {
  const row = plan.order[plan.on[o] ?? 0] ?? [];
  return keyOf(shop, o, plan.on[o] ?? 0, row[row.indexOf(o) - 1] ?? -1);
}

/** Where a move would put it. */
function keyAt(shop: Shop, plan: Plan, { o, machine, at }: Move): number {
  const row = (plan.order[machine] ?? []).filter((x) => x !== o);
  return keyOf(shop, o, machine, row[at - 1] ?? -1);
}

function keyOf(shop: Shop, o: number, machine: number, left: number): number {
  const n = shop.choices.length + 1;
  return (o * shop.machines + machine) * n + left + 1;
}

type Around = { readonly k: number; readonly best: number; readonly random: Random };

function chooseMove(
  shop: Shop,
  plan: Plan,
  now: Lengths,
  tabu: ReadonlyMap<number, number>,
  on: Around,
): Move | null {
  let [chosen, ties]: [Move | null, number] = [null, 0];
  for (let o = 0; o < shop.choices.length; o += 1) {
    const through = (now.heads[o] ?? 0) + (plan.time[o] ?? 0) + (now.tails[o] ?? 0);
    if (through < now.makespan) continue;
    for (const move of movesOf(shop, plan, o)) {
      if ((tabu.get(keyAt(shop, plan, move)) ?? 0) > on.k && move.most >= on.best) continue;
      ties = chosen && move.most === chosen.most ? ties + 1 : 1;
      if (!chosen || move.most < chosen.most || (move.most === chosen.most && on.random() * ties < 1))
        chosen = move;
    }
  }
  return chosen;
}

/** Positions of an operation but the one it has: after what must come before it, before what must come after it. */
function movesOf(shop: Shop, plan: Plan, o: number): Move[] {
  const without = lengthsOf(shop, plan, o);
  if (!without) return [];
  const { heads, tails } = without;
  const end = (x: number): number => (x < 0 ? 0 : (heads[x] ?? 0) + (plan.time[x] ?? 0));
  const rest = (x: number): number => (x < 0 ? 0 : (tails[x] ?? 0) + (plan.time[x] ?? 0));
  const [b, a] = [shop.before[o] ?? -1, shop.after[o] ?? -1];
  const [head, tail] = [end(b), rest(a)];
  return (shop.choices[o] ?? []).flatMap(({ machine, time }) => {
    const row = (plan.order[machine] ?? []).filter((x) => x !== o);
    const first = row.findLastIndex((x) => rest(x) > tail && end(x) <= head) + 1;
    const stop = row.findIndex((x) => end(x) > head && rest(x) <= tail);
    const last = stop < 0 ? row.length : stop;
    const own = plan.on[o] === machine ? (plan.order[machine] ?? []).indexOf(o) : -1;
    return Array.from({ length: Math.max(0, last - first + 1) }, (_, i): Move => {
      const at = first + i;
      const most = Math.max(head, end(row[at - 1] ?? -1)) + time + Math.max(tail, rest(row[at] ?? -1));
      return { o, machine, time, at, most };
    }).filter((m) => m.at !== own);
  });
}

/** Makes a move; null, with nothing changed, where it would run in a circle. */
function moved(
  shop: Shop,
  plan: Plan,
  move: Move,
): { readonly from: number; readonly lengths: Lengths } | null {
  const from = tabuKey(shop, plan, move.o);
  const was = copied(plan);
  apply(plan, move);
  const lengths = lengthsOf(shop, plan);
  if (lengths) return { from, lengths };
  for (const [m, row] of was.order.entries()) plan.order[m] = row;
  plan.on.set(was.on);
  plan.time.set(was.time);
  return null;
}

function apply(plan: Plan, { o, machine, time, at }: Move): void {
  const from = plan.on[o] ?? 0;
  plan.order[from] = (plan.order[from] ?? []).filter((x) => x !== o);
  plan.order[machine] = (plan.order[machine] ?? []).toSpliced(at, 0, o);
  plan.on[o] = machine;
  plan.time[o] = time;
}

function shake(shop: Shop, plan: Plan, random: Random): void {
  const moves = movesOf(shop, plan, Math.floor(random() * shop.choices.length));
  const move = moves[Math.floor(random() * moves.length)];
  if (move) moved(shop, plan, move);
}

function copied({ on, time, order }: Plan): Plan {
  return { on: on.slice(), time: time.slice(), order: order.map((row) => [...row]) };
}

/** Operations one after the other as soon as they can be, each where it is over first. */
function firstPlan(shop: Shop): Plan {
  const n = shop.choices.length;
  const plan: Plan = {
    on: new Int32Array(n),
    time: new Int32Array(n),
    order: Array.from({ length: shop.machines }, () => []),
  };
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
    plan.order[machine]?.push(o);
    free[machine] = end;
    over[o] = end;
    open.delete(o);
    const next = shop.after[o] ?? -1;
    if (next >= 0) open.add(next);
  }
  return plan;
}
