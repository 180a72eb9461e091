import type { Choice, Instance } from './read.ts';

/** All operations of an instance in one list, job after job. */
export type Shop = {
  readonly machines: number;
  readonly choices: readonly (readonly Choice[])[];
  /** For each machine the operations that it can do. */
  readonly able: readonly (readonly number[])[];
  /** The operation before and after in its job; −1 = none. */
  readonly before: Int32Array;
  readonly after: Int32Array;
};

/** Which machine does what, how long that takes, and who stands left and right of it there; −1 = nobody. */
export type Plan = {
  readonly on: Int32Array;
  readonly time: Int32Array;
  readonly left: Int32Array;
  readonly right: Int32Array;
};

/** Longest ways from the beginning to each operation, and from its end to the end. Filled by `measure`. */
export type Lengths = {
  readonly heads: Float64Array;
  readonly tails: Float64Array;
  /** Operations in an order in which each comes after all that it waits for. */
  readonly order: Int32Array;
  readonly waits: Int32Array;
  makespan: number;
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
  const able = Array.from({ length: machines }, (_, m) =>
    choices.flatMap((c, o) => (c.some((x) => x.machine === m) ? [o] : [])),
  );
  return { machines, choices, able, before, after };
}

export function emptyPlan(n: number): Plan {
  const none = (): Int32Array => new Int32Array(n).fill(-1);
  return { on: none(), time: new Int32Array(n), left: none(), right: none() };
}

export function emptyLengths(n: number): Lengths {
  return {
    heads: new Float64Array(n),
    tails: new Float64Array(n),
    order: new Int32Array(n),
    waits: new Int32Array(n),
    makespan: 0,
  };
}

/** Writes one plan over another. */
export function copyInto(to: Plan, from: Plan): void {
  to.on.set(from.on);
  to.time.set(from.time);
  to.left.set(from.left);
  to.right.set(from.right);
}

/** Takes an operation out of its machine's row. */
export function unlink({ left, right }: Plan, o: number): void {
  const [l, r] = [left[o] as number, right[o] as number];
  if (l >= 0) right[l] = r;
  if (r >= 0) left[r] = l;
  left[o] = -1;
  right[o] = -1;
}

/** Puts an operation between two that stand next to each other; −1 = the end of the row. */
export function link({ left, right }: Plan, o: number, l: number, r: number): void {
  left[o] = l;
  right[o] = r;
  if (l >= 0) right[l] = o;
  if (r >= 0) left[r] = o;
}

/** When an operation is over, and how long it takes from its start to the end of all; 0 for nobody (−1). */
export function endOf({ heads }: Lengths, { time }: Plan, o: number): number {
  return o < 0 ? 0 : (heads[o] as number) + (time[o] as number);
}
export function restOf({ tails }: Lengths, { time }: Plan, o: number): number {
  return o < 0 ? 0 : (tails[o] as number) + (time[o] as number);
}

/** Heads, tails and makespan of a plan; false where its rows run in a circle. */
export function measure(shop: Shop, plan: Plan, into: Lengths): boolean {
  const { heads, tails, order } = into;
  const n = order.length;
  if (sorted(shop, plan, into) < n) return false;
  let makespan = 0;
  for (let k = 0; k < n; k += 1) {
    const o = order[k] as number;
    const b = endOf(into, plan, shop.before[o] as number);
    heads[o] = Math.max(b, endOf(into, plan, plan.left[o] as number));
  }
  for (let k = n - 1; k >= 0; k -= 1) {
    const o = order[k] as number;
    const a = restOf(into, plan, shop.after[o] as number);
    tails[o] = Math.max(a, restOf(into, plan, plan.right[o] as number));
    makespan = Math.max(makespan, (heads[o] as number) + restOf(into, plan, o));
  }
  into.makespan = makespan;
  return true;
}

/** Fills the order; how many could be put into it. */
function sorted({ before, after }: Shop, { left, right }: Plan, { order, waits }: Lengths): number {
  let count = 0;
  const put = (o: number): void => {
    order[count] = o;
    count += 1;
  };
  for (let o = 0; o < waits.length; o += 1) {
    waits[o] = ((before[o] as number) >= 0 ? 1 : 0) + ((left[o] as number) >= 0 ? 1 : 0);
    if (waits[o] === 0) put(o);
  }
  for (let k = 0; k < count; k += 1) {
    const o = order[k] as number;
    for (const next of [after[o] as number, right[o] as number]) {
      if (next < 0) continue;
      waits[next] = (waits[next] as number) - 1;
      if (waits[next] === 0) put(next);
    }
  }
  return count;
}
