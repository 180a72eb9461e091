import type { Shop } from './graph.ts';

/** Up to so many machines every group of them is looked at. */
const GROUPED = 16;

/**
 * The least that any plan needs: the longest job at its quickest, and, for each group of machines, the work that nobody
 * outside it can do, shared by all of them, with the least that comes before and after it.
 */
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
  const able = shop.choices.map((cs) => cs.reduce((bits, c) => bits | (1 << c.machine), 0));
  const ofGroup = (bits: number, count: number): number => {
    let [work, head, tail] = [0, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
    able.forEach((can, o) => {
      if (can & ~bits) return;
      work += quick[o] ?? 0;
      head = Math.min(head, heads[o] ?? 0);
      tail = Math.min(tail, tails[o] ?? 0);
    });
    return work === 0 ? 0 : Math.ceil(work / count) + head + tail;
  };
  return Math.max(...jobs, ...groupsOf(shop.machines).map(({ bits, count }) => ofGroup(bits, count)));
}

/** Groups of machines as bits; each one and all together where there are too many of them. */
function groupsOf(machines: number): readonly { readonly bits: number; readonly count: number }[] {
  const all = (1 << machines) - 1;
  const every = Array.from({ length: all }, (_, i) => i + 1);
  const few = [...Array.from({ length: machines }, (_, m) => 1 << m), all];
  return (machines <= GROUPED ? every : few).map((bits) => ({ bits, count: countOf(bits) }));
}

function countOf(bits: number): number {
  let count = 0;
  for (let b = bits; b !== 0; b &= b - 1) count += 1;
  return count;
}
