import type { Shop } from './graph.ts';

/** What a plan of a given length leaves open. Every function that narrows gives false where nothing is left. */
export type Windows = {
  /** Earliest start and latest end of each operation. */
  readonly from: Float64Array;
  readonly to: Float64Array;
  /** Its choices that are left, as bits; the least time of those; its machine, −1 while several are left. */
  readonly left: Int32Array;
  readonly time: Float64Array;
  readonly on: Int32Array;
  /** 1 at `i * n + j`: i comes before j on their machine. */
  readonly order: Uint8Array;
  /** Machines on which something has changed. */
  readonly stale: Uint8Array;
};

export function firstWindows(shop: Shop, most: number): Windows {
  const n = shop.choices.length;
  return {
    from: new Float64Array(n),
    to: new Float64Array(n).fill(most),
    left: Int32Array.from(shop.choices, (c) => (1 << c.length) - 1),
    time: new Float64Array(n),
    on: new Int32Array(n).fill(-1),
    order: new Uint8Array(n * n),
    stale: new Uint8Array(shop.machines),
  };
}

export function copyOf(w: Windows): Windows {
  return {
    from: w.from.slice(),
    to: w.to.slice(),
    left: w.left.slice(),
    time: w.time.slice(),
    on: w.on.slice(),
    order: w.order.slice(),
    stale: w.stale.slice(),
  };
}

/** Leaves an operation only these choices. */
export function choose(shop: Shop, w: Windows, o: number, bits: number): boolean {
  if (bits === 0) return false;
  w.left[o] = bits;
  const open = (shop.choices[o] ?? []).filter((_, c) => bits & (1 << c));
  w.time[o] = Math.min(...open.map((c) => c.time));
  const [only] = open;
  if (open.length === 1 && only) {
    w.on[o] = only.machine;
    w.stale[only.machine] = 1;
  }
  const [a, b] = [shop.after[o] as number, shop.before[o] as number];
  const [end, start] = [(w.from[o] as number) + w.time[o], (w.to[o] as number) - w.time[o]];
  if (end > (w.to[o] as number)) return false;
  return (a < 0 || startsFrom(shop, w, a, end)) && (b < 0 || endsBy(shop, w, b, start));
}

/** Puts one operation before another on their machine. */
export function setOrder(shop: Shop, w: Windows, first: number, then: number): boolean {
  w.order[first * w.on.length + then] = 1;
  const [end, start] = [
    (w.from[first] as number) + (w.time[first] as number),
    (w.to[then] as number) - (w.time[then] as number),
  ];
  return startsFrom(shop, w, then, end) && endsBy(shop, w, first, start);
}

function startsFrom(shop: Shop, w: Windows, o: number, at: number): boolean {
  let start = at;
  for (let x = o; x >= 0 && start > (w.from[x] as number); x = shop.after[x] as number) {
    w.from[x] = start;
    if ((w.on[x] as number) >= 0) w.stale[w.on[x] as number] = 1;
    start += w.time[x] as number;
    if (start > (w.to[x] as number)) return false;
  }
  return true;
}

function endsBy(shop: Shop, w: Windows, o: number, at: number): boolean {
  let end = at;
  for (let x = o; x >= 0 && end < (w.to[x] as number); x = shop.before[x] as number) {
    w.to[x] = end;
    if ((w.on[x] as number) >= 0) w.stale[w.on[x] as number] = 1;
    end -= w.time[x] as number;
    if (end < (w.from[x] as number)) return false;
  }
  return true;
}

/** Narrows all windows until nothing changes. */
export function narrow(shop: Shop, w: Windows): boolean {
  for (;;) {
    const machine = w.stale.indexOf(1);
    if (machine < 0) return true;
    w.stale[machine] = 0;
    const row = (shop.able[machine] ?? []).filter((o) => w.on[o] === machine);
    if (!pairs(shop, w, row) || !edges(shop, w, row, false) || !edges(shop, w, row, true)) return false;
    if (!choicesOn(shop, w, machine, row)) return false;
  }
}

/** Of two operations of which one cannot be first the other is. */
function pairs(shop: Shop, w: Windows, row: readonly number[]): boolean {
  const n = w.on.length;
  for (const i of row)
    for (const j of row) {
      if (i === j) continue;
      const both = (w.time[i] as number) + (w.time[j] as number);
      const known = w.order[i * n + j] === 1;
      if (!known && (w.from[j] as number) + both <= (w.to[i] as number)) continue;
      if (w.order[j * n + i] === 1 || !setOrder(shop, w, i, j)) return false;
    }
  return true;
}

/**
 * Edge finding on one machine (Carlier & Pinson 1989, in the form of Baptiste, Le Pape & Nuijten 2001; both from memory):
 * a set that cannot take one more before its last end has that one after all of them. `mirrored` looks from the end.
 */
function edges(shop: Shop, w: Windows, row: readonly number[], mirrored: boolean): boolean {
  const sorted = row
    .map((o) => {
      const from = mirrored ? -(w.to[o] as number) : (w.from[o] as number);
      const to = mirrored ? -(w.from[o] as number) : (w.to[o] as number);
      return { o, from, to, time: w.time[o] as number, least: from, ends: 0 };
    })
    .sort((a, b) => a.from - b.from);
  for (const { to: last } of sorted) if (!afterSet(sorted, last)) return false;
  return sorted.every(({ o, from: was, least }) => {
    if (least <= was) return true;
    return mirrored ? endsBy(shop, w, o, -least) : startsFrom(shop, w, o, least);
  });
}

type Row = { readonly from: number; readonly to: number; readonly time: number; least: number; ends: number };

/** Raises the earliest starts of those that must come after the set of all that end by `last`. */
function afterSet(sorted: readonly Row[], last: number): boolean {
  let [work, end] = [0, Number.NEGATIVE_INFINITY];
  for (let k = sorted.length - 1; k >= 0; k -= 1) {
    const x = sorted[k] as Row;
    if (x.to <= last) {
      work += x.time;
      end = Math.max(end, x.from + work);
      if (end > last) return false;
    }
    x.ends = end;
  }
  let before = Number.NEGATIVE_INFINITY;
  for (const x of sorted) {
    if (x.to <= last) {
      before = Math.max(before, x.from + work);
      work -= x.time;
      continue;
    }
    if (x.from + work + x.time > last && work > 0) x.least = Math.max(x.least, x.ends);
    if (before + x.time > last) x.least = Math.max(x.least, end);
  }
  return true;
}

/** Drops choices of a machine that fit neither before nor after somebody who is there for sure. */
function choicesOn(shop: Shop, w: Windows, machine: number, row: readonly number[]): boolean {
  for (const o of shop.able[machine] ?? []) {
    if ((w.on[o] as number) >= 0) continue;
    const c = (shop.choices[o] ?? []).findIndex((x) => x.machine === machine);
    const bits = w.left[o] as number;
    if (c < 0 || !(bits & (1 << c))) continue;
    const time = shop.choices[o]?.[c]?.time ?? 0;
    const [from, to] = [w.from[o] as number, w.to[o] as number];
    const apart = (x: number): boolean => {
      const both = time + (w.time[x] as number);
      return from + both <= (w.to[x] as number) || (w.from[x] as number) + both <= to;
    };
    if (from + time <= to && row.every(apart)) continue;
    if (!choose(shop, w, o, bits & ~(1 << c))) return false;
  }
  return true;
}
