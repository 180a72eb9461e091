import type { Shop } from './graph.ts';
import { choose, copyOf, firstWindows, narrow, setOrder, type Windows } from './windows.ts';

/** `none`: there is no such plan. A figure: there is one of that length. */
export type Proof = 'none' | 'unknown' | number;
type Search = { readonly shop: Shop; readonly until: () => boolean; nodes: number };

/** Pairs that are tried out at each node, both ways. */
const TRIED = 12;

/** Whether there is a plan of at most `most`: windows are narrowed, then one question after the other is settled. */
export function isPossible(shop: Shop, most: number, nodes: number, until: () => boolean): Proof {
  const windows = firstWindows(shop, most);
  for (let o = 0; o < shop.choices.length; o += 1)
    if (!choose(shop, windows, o, windows.left[o] as number)) return 'none';
  const found = settled({ shop, nodes, until }, windows);
  if (found === null) return 'unknown';
  return found ? Math.max(...found.from.map((from, o) => from + (found.time[o] as number))) : 'none';
}

/** The windows with every question settled, each operation at its earliest; false: no plan fits. Null: given up. */
function settled(on: Search, windows: Windows): Windows | false | null {
  on.nodes -= 1;
  if (on.nodes < 0 || on.until()) return null;
  if (!narrow(on.shop, windows)) return false;
  const open = openChoice(on.shop, windows);
  const branches = open ? byChoice(on.shop, windows, open) : byPair(on.shop, windows);
  if (branches === 'done') return windows;
  let unknown = false;
  for (const branch of branches) {
    const found = settled(on, branch);
    if (found) return found;
    unknown ||= found === null;
  }
  return unknown ? null : false;
}

/** The operation with fewest machines left, the longest of those; null when each has its machine. */
function openChoice({ choices }: Shop, { on, left, time }: Windows): { readonly o: number } | null {
  const count = (o: number): number =>
    (choices[o] ?? []).filter((_, c) => (left[o] as number) & (1 << c)).length;
  let best = -1;
  for (let o = 0; o < on.length; o += 1) {
    if ((on[o] as number) >= 0) continue;
    const by = best < 0 ? -1 : count(o) - count(best) || (time[best] as number) - (time[o] as number);
    if (by < 0) best = o;
  }
  return best < 0 ? null : { o: best };
}

/** One branch for each machine that is left, the quickest first. */
function byChoice(shop: Shop, windows: Windows, { o }: { readonly o: number }): readonly Windows[] {
  return (shop.choices[o] ?? [])
    .map(({ time }, c) => ({ c, time }))
    .filter(({ c }) => (windows.left[o] as number) & (1 << c))
    .sort((a, b) => a.time - b.time)
    .flatMap(({ c }) => {
      const branch = copyOf(windows);
      return choose(shop, branch, o, 1 << c) ? [branch] : [];
    });
}

/**
 * Both orders of the pair that narrows most when it is settled. Pairs that can go only one way are settled on the way
 * there; `done` when no pair is open.
 */
function byPair(shop: Shop, windows: Windows): readonly Windows[] | 'done' {
  for (;;) {
    const pairs = tightPairs(shop, windows);
    if (pairs.length === 0) return 'done';
    let best: { readonly gain: number; readonly both: readonly Windows[] } | null = null;
    let only: Windows | null = null;
    for (const [a, b] of pairs) {
      const both = [tried(shop, windows, a, b), tried(shop, windows, b, a)];
      const fit = both.filter((w) => w !== null);
      if (fit.length === 0) return [];
      if (fit.length === 1) only = fit[0] ?? null;
      if (only) break;
      const [x = 0, y = 0] = fit.map((w) => narrowed(windows, w));
      const gain = Math.min(x, y) * 4 + Math.max(x, y);
      if (!best || gain > best.gain) best = { gain, both: x <= y ? fit : fit.toReversed() };
    }
    if (!only) return best?.both ?? [];
    replace(windows, only);
  }
}

function tried(shop: Shop, windows: Windows, first: number, then: number): Windows | null {
  const branch = copyOf(windows);
  return setOrder(shop, branch, first, then) && narrow(shop, branch) ? branch : null;
}

function narrowed(was: Windows, is: Windows): number {
  let sum = 0;
  for (let o = 0; o < was.from.length; o += 1)
    sum += (is.from[o] as number) - (was.from[o] as number) + (was.to[o] as number) - (is.to[o] as number);
  return sum;
}

function replace(to: Windows, by: Windows): void {
  for (const key of Object.keys(to) as (keyof Windows)[]) (to[key] as Float64Array).set(by[key]);
}

/** Pairs on one machine that may go both ways, those with least room first. */
function tightPairs(
  { able }: Shop,
  { from, to, time, on, order }: Windows,
): readonly (readonly [number, number])[] {
  const n = on.length;
  const open: { readonly pair: readonly [number, number]; readonly room: number }[] = [];
  for (const [machine, row] of able.entries())
    for (const [a, b] of row.flatMap((x, i) => row.slice(i + 1).map((y) => [x, y] as const))) {
      if (on[a] !== machine || on[b] !== machine || order[a * n + b] === 1 || order[b * n + a] === 1)
        continue;
      const both = (time[a] as number) + (time[b] as number);
      const ab = (to[b] as number) - (from[a] as number) - both;
      const ba = (to[a] as number) - (from[b] as number) - both;
      open.push({ pair: [a, b], room: Math.min(ab, ba) + Math.sqrt(Math.max(ab, ba)) });
    }
  return open
    .sort((a, b) => a.room - b.room)
    .slice(0, TRIED)
    .map((x) => x.pair);
}
