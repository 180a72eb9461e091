import { NEVER } from './calendar.ts';
import { drawn, setLeast } from './dispatch.ts';
import type { LineChanges } from './lineChanges.ts';
import type { Run } from './run.ts';

/**
 * How all runs stand at a minute, once everything that begins before it was begun: of the lines that were to be begun by
 * then, those that are not through; people and bays. All other lines are through, or untouched.
 */
export type Stand = {
  readonly untilMin: number;
  readonly peopleFree: Float64Array;
  readonly bayFree: Float64Array;
  readonly held: Int32Array;
  /** Per run: how many lines are not through. */
  readonly count: Int32Array;
  /** Room for so many lines in each run: which they are, in planned order, and how they stand. */
  room: number;
  line: Int32Array;
  begun: Int32Array;
  bay: Int32Array;
  free: Float64Array;
};

export function emptyStand(run: Run, untilMin: number, runs: number): Stand {
  return {
    untilMin,
    peopleFree: new Float64Array(run.peopleFree.length * runs),
    bayFree: new Float64Array(run.bayFree.length * runs),
    held: new Int32Array(run.held.length * runs),
    count: new Int32Array(runs),
    ...roomFor(0, runs),
  };
}

function roomFor(room: number, runs: number): Pick<Stand, 'room' | 'line' | 'begun' | 'bay' | 'free'> {
  const whole = (): Int32Array => new Int32Array(room * runs);
  return { room, line: whole(), begun: whole(), bay: whole(), free: new Float64Array(room * runs) };
}

/** Keeps how a run without a car of its own stands. */
export function keep(to: Stand, run: Run): void {
  const { turn, columns, live } = run;
  if (run.count > to.room) widen(to, run.count);
  let i = turn * to.room;
  for (let k = 0; k < run.count; k += 1) {
    const line = live[k] ?? 0;
    if ((columns.firstMin[line] ?? 0) >= to.untilMin) break;
    put(to, i, run, line);
    i += 1;
  }
  to.count[turn] = i - turn * to.room;
  to.peopleFree.set(run.peopleFree, turn * run.peopleFree.length);
  to.bayFree.set(run.bayFree, turn * run.bayFree.length);
  to.held.set(run.held, turn * run.held.length);
}

/** Makes room for more lines in each run. */
export function widen(to: Stand, least: number): void {
  const runs = to.count.length;
  const more = roomFor(least + 4, runs);
  for (let turn = 0; turn < runs; turn += 1)
    for (let k = 0; k < (to.count[turn] ?? 0); k += 1) {
      const [was, is] = [turn * to.room + k, turn * more.room + k];
      more.line[is] = to.line[was] ?? 0;
      more.begun[is] = to.begun[was] ?? 0;
      more.bay[is] = to.bay[was] ?? 0;
      more.free[is] = to.free[was] ?? 0;
    }
  Object.assign(to, more);
}

/** Calls lines by the numbers they have now, those that differ by their old names. */
export function renumber(
  { line, count, room }: Stand,
  { isNow, differ }: Pick<LineChanges, 'isNow' | 'differ'>,
): void {
  for (let turn = 0; turn < count.length; turn += 1) {
    const from = turn * room;
    for (let i = from; i < from + (count[turn] ?? 0); i += 1) {
      const old = line[i] ?? 0;
      const now = isNow[old] ?? -1;
      line[i] = now >= 0 && differ[now] === 0 ? now : oldName(old);
    }
  }
}

/** A line that is not among those that are played, or not as it is there: below 0. Both ways the same. */
export function oldName(old: number): number {
  return -2 - old;
}

/** The number that a line had; below 0 for one that has a number. */
export const oldOf = oldName;

/** Where a line is in a stand; −1 = it is not. */
export function indexIn({ line, count, room }: Stand, turn: number, wanted: number): number {
  const from = turn * room;
  for (let i = from; i < from + (count[turn] ?? 0); i += 1) if (line[i] === wanted) return i;
  return -1;
}

/** Sets a run to where a stand has left all cars but its own (−1 = it has none of its own), which stays as it is. */
export function goOnFrom(from: Stand, run: Run, own: number): void {
  const { turn } = run;
  take(run.peopleFree, from.peopleFree, turn);
  take(run.bayFree, from.bayFree, turn);
  take(run.held, from.held, turn);
  run.count = 0;
  run.reach = lookedAt(run, from.untilMin);
  // A car that was looked at goes before the first line that comes after it in the sequence.
  let ahead = own >= 0 && (run.columns.firstMin[own] ?? 0) < from.untilMin ? placeOf(run, own) : NEVER;
  const end = turn * from.room + (from.count[turn] ?? 0);
  for (let i = turn * from.room; i < end; i += 1) {
    const line = from.line[i] ?? 0;
    if (line >= ahead) {
      goOnWith(run, own);
      ahead = NEVER;
    }
    drawn(run, line);
    run.next[line] = (run.columns.pieceFrom[line] ?? 0) + (from.begun[i] ?? 0);
    run.free[line] = from.free[i] ?? 0;
    run.bay[line] = from.bay[i] ?? -1;
    goOnWith(run, line);
  }
  if (ahead < NEVER) goOnWith(run, own);
}

function goOnWith(run: Run, line: number): void {
  setLeast(run, line);
  run.live[run.count] = line;
  run.count += 1;
}

/** How many lines of the sequence are planned to be begun before a minute. */
function lookedAt({ sequence, columns }: Run, untilMin: number): number {
  let [low, high] = [0, sequence.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((columns.firstMin[sequence[middle] ?? 0] ?? 0) < untilMin) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** All other lines are numbered in planned order, and as many of them come before a car of its own as its place says. */
function placeOf({ sequence }: Run, own: number): number {
  return sequence.indexOf(own);
}

function take(to: Float64Array | Int32Array, from: Float64Array | Int32Array, turn: number): void {
  for (let i = 0; i < to.length; i += 1) to[i] = from[turn * to.length + i] ?? 0;
}

/** How many of its pieces a line has begun. */
export function begunOf({ next, columns }: Run, line: number): number {
  return (next[line] ?? 0) - (columns.pieceFrom[line] ?? 0);
}

/** Puts a line as it is in a run into one of the rooms of a stand. */
export function put(stand: Stand, i: number, run: Run, line: number): void {
  stand.line[i] = line;
  stand.begun[i] = begunOf(run, line);
  stand.bay[i] = run.bay[line] ?? -1;
  stand.free[i] = run.free[line] ?? 0;
}
