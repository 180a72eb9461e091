import { NEVER } from './calendar.ts';
import type { Run } from './run.ts';
import { nextFitFrom, nextFrom } from './walk.ts';

/** Finds when a line's next piece could begin as things are, by whom and in which bay; NEVER while it has no bay. */
export function findStart(run: Run, line: number): void {
  const { next, known, start, into, columns } = run;
  const n = next[line] ?? 0;
  const bay = columns.enters[n] === 1 ? freeBay(run, n) : -1;
  known[line] = 1;
  into[line] = bay;
  run.crew[line] = -1;
  start[line] = bay === HELD ? NEVER : soonestCrew(run, line, n, carFrom(run, line, n, bay));
}

/** Every bay that would do is taken by a car whose end is not known yet. */
const HELD = -2;

/** The bay that is free first, its own of two; −1 for a place that holds many cars. */
function freeBay(run: Run, n: number): number {
  const { bays, bayFrom, bayTo, running, startMin, settleMin } = run.columns;
  const { bayFree, held } = run;
  const from = bayFrom[n] ?? 0;
  const to = bayTo[n] ?? 0;
  if (from === to) return -1;
  if (running[n] === 1) return bays[from] ?? -1;
  const soonest = (startMin[n] ?? 0) - (settleMin[n] ?? 0);
  let best = HELD;
  let bestFree = NEVER;
  for (let b = from; b < to && bestFree > soonest; b += 1) {
    const bay = bays[b] ?? 0;
    const free = Math.max(soonest, bayFree[bay] ?? 0);
    if ((held[bay] ?? 0) > 0 || free >= bestFree) continue;
    best = bay;
    bestFree = free;
  }
  return best;
}

/** When the car stands where it is to be. It is driven in while the shop is open, and then has to settle. */
function carFrom(run: Run, line: number, n: number, into: number): number {
  const { enters, running, settleMin, open, hours } = run.columns;
  const least = run.least[line] ?? 0;
  if (enters[n] === 0 || running[n] === 1) return least;
  const enter = Math.max(run.free[line] ?? 0, into < 0 ? -NEVER : (run.bayFree[into] ?? 0));
  if (enter === -NEVER) return least;
  return Math.max(least, nextFrom(hours, open, enter) + (settleMin[n] ?? 0));
}

/** Who would keep a car waiting for less than this is waited for. Common practice, no source. */
export const PATIENCE_MIN = 30;

/**
 * When a piece begins whose car stands there from `t` on, and by whom: who was planned, unless somebody else can begin
 * clearly sooner. Work that nobody attends, or that somebody is at, waits for nobody.
 */
function soonestCrew(run: Run, line: number, n: number, t: number): number {
  const { crewFrom, crewTo, running } = run.columns;
  const planned = crewFrom[n] ?? 0;
  const end = crewTo[n] ?? 0;
  if (planned === end) return t;
  run.crew[line] = planned;
  if (running[n] === 1) return t;
  let start = startOf(run, line, n, planned, freeFrom(run, planned, t));
  let beat = start - PATIENCE_MIN;
  for (let c = planned + 1; c < end && beat > t; c += 1) {
    const free = freeFrom(run, c, t);
    const from = free < beat ? startOf(run, line, n, c, free) : NEVER;
    if (from >= beat) continue;
    run.crew[line] = c;
    start = from;
    beat = from;
  }
  return start;
}

/** When all of a crew have done what they began, not before `t`. */
function freeFrom(run: Run, crew: number, t: number): number {
  const { one, two } = run.columns;
  const { peopleFree } = run;
  return Math.max(t, peopleFree[one[crew] ?? 0] ?? 0, peopleFree[two[crew] ?? 0] ?? 0);
}

/** The first minute from `t` on in their hours, in which it fits in one go where the labour may not be split. */
function startOf(run: Run, line: number, n: number, crew: number, t: number): number {
  const { works, hours, splittable } = run.columns;
  const at = works[crew] ?? 0;
  if (splittable[n] === 1) return nextFrom(hours, at, t);
  const whole = nextFitFrom(hours, at, t, labourOf(run, line, n, crew));
  return whole === NEVER ? nextFrom(hours, at, t) : whole;
}

/** Whole minutes that a crew needs for a piece. */
export function labourOf(run: Run, line: number, n: number, crew: number): number {
  return Math.max(1, Math.round(minutesAt(run, line, n) * (run.columns.pace[crew] ?? 1)));
}

/** Minutes that were drawn for a piece, at normal pace. */
export function minutesAt({ drawn, turn, columns }: Run, line: number, n: number): number {
  const from = columns.pieceFrom[line] ?? 0;
  const pieces = (columns.pieceFrom[line + 1] ?? 0) - from;
  return drawn[line]?.[turn * pieces + n - from] ?? 0;
}
