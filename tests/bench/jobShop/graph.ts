import type { Choice, Instance } from './read.ts';

/** All operations of an instance in one list, job after job. */
export type Shop = {
  readonly machines: number;
  readonly choices: readonly (readonly Choice[])[];
  /** The operation before and after in its job; −1 = none. */
  readonly before: Int32Array;
  readonly after: Int32Array;
};

/** Which machine does what, in which order. */
export type Plan = { readonly on: Int32Array; readonly time: Int32Array; readonly order: number[][] };

/** Longest ways from the beginning to each operation, and from its end to the end. */
export type Lengths = {
  readonly heads: Float64Array;
  readonly tails: Float64Array;
  readonly makespan: number;
};

export function shopOf({ machines, jobs }: Instance): Shop {
  const choices = jobs.flat();
  const before = new Int32Array(choices.length).fill(-1);
  const after = new Int32Array(choices.length).fill(-1);
  let at = 0;
  for (const job of jobs) {
    for (let k = 1; k < job.length; k += 1) {
      before[at + k] = at + k - 1;
      after[at + k - 1] = at + k;
    }
    at += job.length;
  }
  return { machines, choices, before, after };
}

/** Heads and tails with the neighbours on the machines; null where the order runs in a circle. `out` is left out. */
export function lengthsOf(shop: Shop, plan: Plan, out = -1): Lengths | null {
  const n = shop.choices.length;
  const left = new Int32Array(n).fill(-1);
  const right = new Int32Array(n).fill(-1);
  for (const row of plan.order) {
    const there = out < 0 ? row : row.filter((o) => o !== out);
    for (let k = 1; k < there.length; k += 1) {
      left[there[k] ?? 0] = there[k - 1] ?? 0;
      right[there[k - 1] ?? 0] = there[k] ?? 0;
    }
  }
  const sorted = topological(shop, left, right);
  if (sorted.length < n) return null;
  const time = (o: number): number => (o === out ? 0 : (plan.time[o] ?? 0));
  const heads = new Float64Array(n);
  const tails = new Float64Array(n);
  const longest = (of: Float64Array, a: number, b: number): number =>
    Math.max(a < 0 ? 0 : (of[a] ?? 0) + time(a), b < 0 ? 0 : (of[b] ?? 0) + time(b));
  for (const o of sorted) heads[o] = longest(heads, shop.before[o] ?? -1, left[o] ?? -1);
  for (const o of sorted.toReversed()) tails[o] = longest(tails, shop.after[o] ?? -1, right[o] ?? -1);
  let makespan = 0;
  for (let o = 0; o < n; o += 1) makespan = Math.max(makespan, (heads[o] ?? 0) + time(o) + (tails[o] ?? 0));
  return { heads, tails, makespan };
}

function topological(shop: Shop, left: Int32Array, right: Int32Array): number[] {
  const n = shop.choices.length;
  const open = Int32Array.from(
    { length: n },
    (_, o) => Number((shop.before[o] ?? -1) >= 0) + Number((left[o] ?? -1) >= 0),
  );
  const sorted: number[] = [];
  for (let o = 0; o < n; o += 1) if (open[o] === 0) sorted.push(o);
  for (let k = 0; k < sorted.length; k += 1)
    for (const next of [shop.after[sorted[k] ?? 0] ?? -1, right[sorted[k] ?? 0] ?? -1]) {
      if (next < 0) continue;
      open[next] = (open[next] ?? 0) - 1;
      if (open[next] === 0) sorted.push(next);
    }
  return sorted;
}
