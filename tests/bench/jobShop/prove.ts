import type { Shop } from './graph.ts';

/** Earliest starts and latest ends of operations; those of one machine exclude each other. */
type Windows = {
  readonly from: Float64Array;
  readonly to: Float64Array;
  /** Pairs that were put in order: the first, then the second. */
  readonly arcs: readonly (readonly [number, number])[];
};
type Search = {
  readonly shop: Shop;
  readonly time: Float64Array;
  readonly rows: readonly (readonly number[])[];
  readonly jobs: Windows['arcs'];
  nodes: number;
};

/** `none`: there is no such plan. A figure: there is one of that length. */
export type Proof = 'none' | 'unknown' | number;

/** The least that any plan needs: the longest job at its quickest, and the work of each machine that nobody else can do. */
export function plainBound(shop: Shop): number {
  const quick = shop.choices.map((c) => Math.min(...c.map((x) => x.time)));
  const heads = new Float64Array(quick.length);
  const tails = new Float64Array(quick.length);
  quick.forEach((_, o) => {
    const b = shop.before[o] ?? -1;
    heads[o] = b < 0 ? 0 : (heads[b] ?? 0) + (quick[b] ?? 0);
  });
  for (let o = quick.length - 1; o >= 0; o -= 1) {
    const a = shop.after[o] ?? -1;
    tails[o] = a < 0 ? 0 : (tails[a] ?? 0) + (quick[a] ?? 0);
  }
  const jobs = quick.map((q, o) => (heads[o] ?? 0) + q + (tails[o] ?? 0));
  const machines = Array.from({ length: shop.machines }, (_, m) => {
    const only = quick.flatMap((_q, o) => (shop.choices[o]?.every((c) => c.machine === m) ? [o] : []));
    if (only.length === 0) return 0;
    const sum = only.reduce((s, o) => s + (quick[o] ?? 0), 0);
    return sum + Math.min(...only.map((o) => heads[o] ?? 0)) + Math.min(...only.map((o) => tails[o] ?? 0));
  });
  const all = Math.ceil(quick.reduce((s, q) => s + q, 0) / shop.machines);
  return Math.max(...jobs, ...machines, all);
}

/** Whether a plain shop has a plan of at most `most`: windows are narrowed, then one pair after the other is ordered. */
export function isPossible(shop: Shop, most: number, nodes: number): Proof {
  if (shop.choices.some((c) => c.length !== 1)) return 'unknown';
  const time = Float64Array.from(shop.choices, (c) => c[0]?.time ?? 0);
  const rows = Array.from({ length: shop.machines }, (_, m) =>
    shop.choices.flatMap((c, o) => (c[0]?.machine === m ? [o] : [])),
  );
  const jobs = [...shop.after.entries()].filter(([, a]) => a >= 0);
  const windows = {
    from: new Float64Array(time.length),
    to: new Float64Array(time.length).fill(most),
    arcs: [],
  };
  const found = ordered({ shop, time, rows, jobs, nodes }, windows);
  if (found === null) return 'unknown';
  return found ? Math.max(...found.from.map((from, o) => from + (time[o] ?? 0))) : 'none';
}

/** The windows with every pair in order, each operation at its earliest; false: no order fits. Null: the nodes ran out. */
function ordered(on: Search, windows: Windows): Windows | false | null {
  on.nodes -= 1;
  if (on.nodes < 0) return null;
  if (!narrow(on, windows)) return false;
  const pair = tightestPair(on, windows);
  if (!pair) return windows;
  const [a, b] = pair;
  let unknown = false;
  for (const [first, then] of [
    [a, b],
    [b, a],
  ] as const) {
    const arcs = [...windows.arcs, [first, then] as const];
    const found = ordered(on, { from: windows.from.slice(), to: windows.to.slice(), arcs });
    if (found) return found;
    unknown ||= found === null;
  }
  return unknown ? null : false;
}

/** The pair on a machine that may still go both ways and has least room for either; null when every order is settled. */
function tightestPair({ rows, time }: Search, { from, to, arcs }: Windows): readonly [number, number] | null {
  let best: readonly [number, number] | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const row of rows)
    for (let i = 0; i < row.length; i += 1)
      for (let j = i + 1; j < row.length; j += 1) {
        const [a, b] = [row[i] ?? 0, row[j] ?? 0];
        const ends = (x: number): number => (from[x] ?? 0) + (time[x] ?? 0);
        const both = (time[a] ?? 0) + (time[b] ?? 0);
        const [ab, ba] = [(to[b] ?? 0) - (from[a] ?? 0) - both, (to[a] ?? 0) - (from[b] ?? 0) - both];
        if (arcs.some(([x, y]) => (x === a && y === b) || (x === b && y === a))) continue;
        const apart = ends(a) <= (to[b] ?? 0) - (time[b] ?? 0) && (to[a] ?? 0) <= (from[b] ?? 0);
        const other = (to[b] ?? 0) <= (from[a] ?? 0);
        if (ab < 0 || ba < 0 || apart || other) continue;
        const room = Math.min(ab, ba) + Math.sqrt(Math.max(ab, ba));
        if (room < least) [best, least] = [ab >= ba ? [a, b] : [b, a], room];
      }
  return best;
}

/** Narrows all windows until nothing changes; false when one is empty. */
function narrow(on: Search, windows: Windows): boolean {
  for (let changed = true; changed; ) {
    changed = false;
    for (const [first, then] of [...on.jobs, ...windows.arcs]) {
      const step = oneAfterOther(on.time, windows, first, then);
      if (step === null) return false;
      changed ||= step;
    }
    for (const row of on.rows)
      for (const mirrored of [false, true]) {
        const step = onMachine(on.time, row, windows, mirrored);
        if (step === null) return false;
        changed ||= step;
      }
  }
  return true;
}

function oneAfterOther(
  time: Float64Array,
  { from, to }: Windows,
  first: number,
  then: number,
): boolean | null {
  const start = (from[first] ?? 0) + (time[first] ?? 0);
  const end = (to[then] ?? 0) - (time[then] ?? 0);
  const changed = start > (from[then] ?? 0) || end < (to[first] ?? 0);
  from[then] = Math.max(from[then] ?? 0, start);
  to[first] = Math.min(to[first] ?? 0, end);
  return start > (to[first] ?? 0) || end < (from[then] ?? 0) ? null : changed;
}

/**
 * Edge finding on one machine (after Carlier & Pinson 1989, from memory): a set that cannot take one more before its
 * last end has that one after all of them. `mirrored` looks from the end of time.
 */
function onMachine(
  time: Float64Array,
  row: readonly number[],
  windows: Windows,
  mirrored: boolean,
): boolean | null {
  const from = (o: number): number => (mirrored ? -(windows.to[o] ?? 0) : (windows.from[o] ?? 0));
  const to = (o: number): number => (mirrored ? -(windows.from[o] ?? 0) : (windows.to[o] ?? 0));
  const p = (o: number): number => time[o] ?? 0;
  let changed = false;
  for (const last of row) {
    const set = row.filter((o) => to(o) <= to(last)).sort((a, b) => from(b) - from(a));
    let [sum, end] = [0, Number.NEGATIVE_INFINITY];
    for (const o of set) {
      sum += p(o);
      end = Math.max(end, from(o) + sum);
      if (from(o) + sum > to(last)) return null;
      for (const i of row) {
        const inside = to(i) <= to(last) && from(i) >= from(o);
        if (inside || Math.min(from(i), from(o)) + sum + p(i) <= to(last)) continue;
        if (from(i) >= end) continue;
        if (mirrored) windows.to[i] = -end;
        else windows.from[i] = end;
        changed = true;
      }
    }
  }
  for (const i of row)
    for (const j of row)
      if (i !== j && from(i) + p(i) > to(j) - p(j) && from(i) < from(j) + p(j)) {
        if (mirrored) windows.to[i] = -(from(j) + p(j));
        else windows.from[i] = from(j) + p(j);
        changed = true;
      }
  return row.some((o) => from(o) + p(o) > to(o)) ? null : changed;
}
