import { endOf, type Lengths, link, measure, type Plan, restOf, type Shop, unlink } from './graph.ts';

/** An operation put between two others, on its own machine or another; `most` is about how long the plan is then. */
export type Move = {
  readonly o: number;
  readonly machine: number;
  readonly time: number;
  readonly left: number;
  readonly right: number;
  readonly most: number;
  /** Whom it passes on its own machine, and on which side of it they stood. */
  readonly passed: readonly number[];
  readonly wasBefore: boolean;
};

/** One longest way through the plan, from its beginning to its end. */
export function longestWay(shop: Shop, plan: Plan, now: Lengths, pick: () => number): readonly number[] {
  const onWay = (o: number, from: number): boolean =>
    o >= 0 && now.heads[o] === from && from + restOf(now, plan, o) === now.makespan;
  const starts = plan.on.length;
  const way: number[] = [];
  const offset = Math.floor(pick() * starts);
  for (let i = 0; i < starts && way.length === 0; i += 1) {
    const o = (i + offset) % starts;
    if (onWay(o, 0)) way.push(o);
  }
  for (let o = way[0] ?? -1; o >= 0; ) {
    const [a, r] = [shop.after[o] as number, plan.right[o] as number];
    const end = endOf(now, plan, o);
    const [byJob, byMachine] = [onWay(a, end), onWay(r, end)];
    o = byJob && (!byMachine || pick() < 0.5) ? a : byMachine ? r : -1;
    if (o >= 0) way.push(o);
  }
  return way;
}

/**
 * Moves within the rows of one machine on a longest way: out of a block to either end of it, and from its ends into it
 * (after Balas & Vazacopoulos 1998, from memory). Each is known to run in no circle.
 */
export function movesInRows(shop: Shop, plan: Plan, now: Lengths, way: readonly number[]): readonly Move[] {
  const moves: Move[] = [];
  for (let from = 0; from < way.length; ) {
    let to = from;
    while (to + 1 < way.length && plan.on[way[to + 1] as number] === plan.on[way[from] as number]) to += 1;
    const block = way.slice(from, to + 1);
    const last = block.length - 1;
    for (let i = 0; i < last; i += 1) moves.push(...later(shop, plan, now, block.slice(i)));
    for (let i = 1; i <= last; i += 1) moves.push(...sooner(shop, plan, now, block.slice(0, i + 1)));
    for (let i = 1; i < last; i += 1) {
      moves.push(...later(shop, plan, now, block.slice(0, i + 1)));
      if (i > 1) moves.push(...sooner(shop, plan, now, block.slice(i - 1)));
    }
    from = to + 1;
  }
  return moves;
}

/** The first of some neighbours put after the last of them. */
function later(shop: Shop, plan: Plan, now: Lengths, row: readonly number[]): readonly Move[] {
  const [o, last] = [row[0] as number, row.at(-1) as number];
  if (restOf(now, plan, last) < restOf(now, plan, shop.after[o] as number)) return [];
  const passed = row.slice(1);
  const right = plan.right[last] as number;
  const most = lengthOf(shop, plan, now, [...passed, o], plan.left[o] as number, right);
  return [{ ...keeps(plan, o), left: last, right, most, passed, wasBefore: true }];
}

/** The last of some neighbours put before the first of them. */
function sooner(shop: Shop, plan: Plan, now: Lengths, row: readonly number[]): readonly Move[] {
  const [first, o] = [row[0] as number, row.at(-1) as number];
  if (endOf(now, plan, first) < endOf(now, plan, shop.before[o] as number)) return [];
  const passed = row.slice(0, -1);
  const left = plan.left[first] as number;
  const most = lengthOf(shop, plan, now, [o, ...passed], left, plan.right[o] as number);
  return [{ ...keeps(plan, o), left, right: first, most, passed, wasBefore: false }];
}

function keeps(plan: Plan, o: number): Pick<Move, 'o' | 'machine' | 'time'> {
  return { o, machine: plan.on[o] as number, time: plan.time[o] as number };
}

/** The longest way through neighbours in a new order, where all else stays as it is. */
function lengthOf(
  shop: Shop,
  plan: Plan,
  now: Lengths,
  row: readonly number[],
  left: number,
  right: number,
): number {
  const heads: number[] = [];
  let end = endOf(now, plan, left);
  for (const o of row) {
    const head = Math.max(end, endOf(now, plan, shop.before[o] as number));
    heads.push(head);
    end = head + (plan.time[o] as number);
  }
  let rest = restOf(now, plan, right);
  let most = 0;
  for (let i = row.length - 1; i >= 0; i -= 1) {
    const o = row[i] as number;
    rest = Math.max(rest, restOf(now, plan, shop.after[o] as number)) + (plan.time[o] as number);
    most = Math.max(most, (heads[i] as number) + rest);
  }
  return most;
}

/**
 * Where an operation could stand on its other machines: after what must come before it, before what must come after
 * (after Mastrolilli & Gambardella 2000, from memory).
 */
export function movesAway(shop: Shop, plan: Plan, o: number, free: Lengths): readonly Move[] {
  const choices = shop.choices[o] ?? [];
  if (choices.length < 2) return [];
  const [l, r, time] = [plan.left[o] as number, plan.right[o] as number, plan.time[o] as number];
  unlink(plan, o);
  plan.time[o] = 0;
  const moves = measure(shop, plan, free)
    ? choices.filter((c) => c.machine !== plan.on[o]).flatMap((c) => placesOn(shop, plan, free, o, c))
    : [];
  plan.time[o] = time;
  link(plan, o, l, r);
  return moves;
}

function placesOn(
  shop: Shop,
  plan: Plan,
  free: Lengths,
  o: number,
  { machine, time }: { readonly machine: number; readonly time: number },
): readonly Move[] {
  const end = (x: number): number => endOf(free, plan, x);
  const rest = (x: number): number => restOf(free, plan, x);
  const [head, tail] = [end(shop.before[o] as number), rest(shop.after[o] as number)];
  const row = rowOf(plan, free, machine, o);
  const first = row.findLastIndex((x) => rest(x) > tail && end(x) <= head) + 1;
  const stop = row.findIndex((x) => end(x) > head && rest(x) <= tail);
  const last = stop < 0 ? row.length : stop;
  const moves: Move[] = [];
  for (let at = first; at <= last; at += 1) {
    const [left, right] = [row[at - 1] ?? -1, row[at] ?? -1];
    const through = Math.max(head, end(left)) + time + Math.max(tail, rest(right));
    const most = Math.max(through, free.makespan);
    moves.push({ o, machine, time, left, right, most, passed: [], wasBefore: false });
  }
  return moves;
}

/** A machine's row, from left to right. */
function rowOf(plan: Plan, { order }: Lengths, machine: number, without: number): readonly number[] {
  const row: number[] = [];
  for (const o of order) if (plan.on[o] === machine && o !== without) row.push(o);
  return row;
}

export function makeMove(plan: Plan, { o, machine, time, left, right }: Move): void {
  unlink(plan, o);
  link(plan, o, left, right);
  plan.on[o] = machine;
  plan.time[o] = time;
}
