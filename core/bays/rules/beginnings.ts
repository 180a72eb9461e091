import { NEVER } from './calendar.ts';
import { setLeast, startOver } from './dispatch.ts';
import type { Run } from './run.ts';

/**
 * How all runs stand at a minute before which a car's own work begins in none of its placements: what the other cars did
 * up to there is the same for every placement that begins later, and is played once. Other cars count in planned order.
 */
export type Beginning = {
  readonly untilMin: number;
  /** The network that was played, and which of its lines is the car's own. */
  readonly run: Run;
  readonly own: number;
  /** The longest that a car takes to be moved and to settle. */
  readonly settleMin: number;
  /** Bays as they were at the very beginning. */
  readonly heldFirst: Int32Array;
  /** Per run and other car: how many pieces it has begun, when it is free, the bay it holds. */
  readonly begun: Int32Array;
  readonly free: Float64Array;
  readonly bay: Int32Array;
  /** Per run: how many other cars were looked at. */
  readonly reach: Int32Array;
  /** Per run and person, per run and bay. */
  readonly peopleFree: Float64Array;
  readonly bayFree: Float64Array;
  readonly held: Int32Array;
};

/** An empty beginning, to be filled run after run by `keep`. */
export function beginningOf(run: Run, own: number, untilMin: number, runs: number): Beginning {
  const others = (run.next.length - 1) * runs;
  startOver(run);
  return {
    ...{ untilMin, run, own, settleMin: Math.max(0, ...run.columns.settleMin) },
    heldFirst: run.held.slice(),
    begun: new Int32Array(others),
    free: new Float64Array(others),
    bay: new Int32Array(others),
    reach: new Int32Array(runs),
    peopleFree: new Float64Array(run.peopleFree.length * runs),
    bayFree: new Float64Array(run.bayFree.length * runs),
    held: new Int32Array(run.held.length * runs),
  };
}

/** Keeps how a run stands. */
export function keep(to: Beginning, run: Run): void {
  const { own } = to;
  const { turn, columns } = run;
  const reach = run.reach - (own < run.reach ? 1 : 0);
  const at = turn * (run.next.length - 1);
  for (let other = 0; other < reach; other += 1) {
    const line = other < own ? other : other + 1;
    to.begun[at + other] = (run.next[line] ?? 0) - (columns.pieceFrom[line] ?? 0);
    to.free[at + other] = run.free[line] ?? 0;
    to.bay[at + other] = run.bay[line] ?? -1;
  }
  to.reach[turn] = reach;
  to.peopleFree.set(run.peopleFree, turn * run.peopleFree.length);
  to.bayFree.set(run.bayFree, turn * run.bayFree.length);
  to.held.set(run.held, turn * run.held.length);
}

/** Sets a run of a placement to where a beginning has left the other cars; its own car stays as it is. */
export function goOnFrom(from: Beginning, run: Run, own: number): void {
  const mine = { next: run.next[own] ?? 0, free: run.free[own] ?? 0, bay: run.bay[own] ?? -1 };
  startOver(run);
  run.next[own] = mine.next;
  run.free[own] = mine.free;
  run.bay[own] = mine.bay;
  setLeast(run, own);
  const { turn } = run;
  const reach = Math.min(from.reach[turn] ?? 0, run.next.length - 1);
  for (let other = 0; other < reach; other += 1) {
    const line = other < own ? other : other + 1;
    const at = turn * (from.run.next.length - 1) + other;
    run.next[line] = (run.columns.pieceFrom[line] ?? 0) + (from.begun[at] ?? 0);
    run.free[line] = from.free[at] ?? 0;
    run.bay[line] = from.bay[at] ?? -1;
    setLeast(run, line);
  }
  lookAt(run, own < reach ? reach + 1 : reach);
  take(run.peopleFree, from.peopleFree, turn);
  take(run.bayFree, from.bayFree, turn);
  take(run.held, from.held, turn);
}

/** Counts the first lines as looked at. */
function lookAt(run: Run, reach: number): void {
  run.reach = reach;
  run.count = 0;
  for (let line = 0; line < reach; line += 1)
    if (!isThrough(run, line)) {
      run.live[run.count] = line;
      run.count += 1;
    }
}

/** Whether all others stand in a run just as they do in a beginning, so that they go on as they did there. */
export function isBackAt(at: Beginning, run: Run, own: number): boolean {
  const { turn } = run;
  const past = pastOf(run);
  if (!isEqual(run.held, at.held, turn, -NEVER)) return false;
  if (!isEqual(run.peopleFree, at.peopleFree, turn, past)) return false;
  if (!isEqual(run.bayFree, at.bayFree, turn, pastForBays(at, past))) return false;
  const each = at.run.next.length - 1;
  const reach = Math.max(at.reach[turn] ?? 0, run.reach - (own < run.reach ? 1 : 0));
  for (let other = 0; other < reach; other += 1)
    if (!standsAs(at, turn * each + other, run, other < own ? other : other + 1)) return false;
  return true;
}

function standsAs(at: Beginning, i: number, run: Run, line: number): boolean {
  const begun = (run.next[line] ?? 0) - (run.columns.pieceFrom[line] ?? 0);
  if (begun !== (at.begun[i] ?? 0)) return false;
  return (
    begun === 0 || isThrough(run, line) || (run.free[line] === at.free[i] && run.bay[line] === at.bay[i])
  );
}

/** Up to `pastMin` one minute is as good as another. */
function isEqual(
  now: Float64Array | Int32Array,
  kept: Float64Array | Int32Array,
  turn: number,
  pastMin: number,
): boolean {
  for (let i = 0; i < now.length; i += 1) {
    const a = now[i] ?? 0;
    const b = kept[turn * now.length + i] ?? 0;
    if (a !== b && (a > pastMin || b > pastMin)) return false;
  }
  return true;
}

/** Before this nothing is begun any more: the planned start of the earliest of all next pieces. */
function pastOf({ columns, live, count, reach, next }: Run): number {
  let past = columns.firstMin[reach] ?? NEVER;
  for (let k = 0; k < count; k += 1)
    past = Math.min(past, columns.startMin[next[live[k] ?? 0] ?? 0] ?? NEVER);
  return past;
}

/** Who comes into a bay that is free since then has settled in it before anything is begun: an opening before that. */
function pastForBays({ run, settleMin }: Beginning, pastMin: number): number {
  const { hours, openAt } = run.columns;
  let i = openAt[0] ?? 0;
  const opens = (at: number): number => (hours.starts[at] ?? NEVER) + settleMin;
  while (opens(i) > pastMin) i -= 1;
  while (opens(i + 1) <= pastMin && opens(i + 1) < NEVER) i += 1;
  return hours.starts[i] ?? -NEVER;
}

function isThrough({ next, columns }: Run, line: number): boolean {
  return next[line] === columns.pieceFrom[line + 1];
}

function take(to: Float64Array | Int32Array, from: Float64Array | Int32Array, turn: number): void {
  for (let i = 0; i < to.length; i += 1) to[i] = from[turn * to.length + i] ?? 0;
}

/**
 * Whether a beginning holds for another placement too: bays were as free, and all pieces that may have begun are in both.
 * A piece that the car's last work comes long before is not looked at, and the car then leaves its bay after the one before.
 */
export function holdsFor(from: Beginning, run: Run, own: number): boolean {
  if (!isSame(from.run.bayFirst, run.bayFirst)) return false;
  startOver(run);
  if (!isSame(from.heldFirst, run.held)) return false;
  const others = Math.max(from.run.next.length, run.next.length) - 1;
  for (let other = 0; other < others; other += 1)
    if (!isSameLine(from, run, other < from.own ? other : other + 1, other < own ? other : other + 1))
      return false;
  return true;
}

function isSame(a: Float64Array | Int32Array, b: Float64Array | Int32Array): boolean {
  return a.every((x, i) => x === b[i]);
}

function isSameLine({ run: was, untilMin }: Beginning, run: Run, a: number, b: number): boolean {
  const count = Math.max(begunBefore(was, a, untilMin), begunBefore(run, b, untilMin));
  for (let k = 0; k < count; k += 1) if (leavesAt(was, a, k) !== leavesAt(run, b, k)) return false;
  return true;
}

/** Pieces of a line that are planned before a minute. */
function begunBefore({ columns }: Run, line: number, untilMin: number): number {
  const from = columns.pieceFrom[line] ?? 0;
  const to = columns.pieceFrom[line + 1] ?? from;
  let n = from;
  while (n < to && (columns.startMin[n] ?? 0) < untilMin) n += 1;
  return n - from;
}

/** −1 for a piece that a line does not have. */
function leavesAt({ columns }: Run, line: number, k: number): number {
  const n = (columns.pieceFrom[line] ?? 0) + k;
  return n < (columns.pieceFrom[line + 1] ?? 0) ? (columns.leaves[n] ?? 0) : -1;
}
