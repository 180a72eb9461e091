import { NEVER } from './calendar.ts';
import type { Line } from './network.ts';
import { NOT_DRAWN, type Run } from './run.ts';
import { findStart, labourOf, minutesAt, PATIENCE_MIN } from './starts.ts';
import { addFrom } from './walk.ts';

/** Sets a run back to now; cars that stand where their next work is hold their bay. */
export function startOver(run: Run): void {
  run.peopleFree.fill(-NEVER);
  run.held.set(run.heldFirst);
  run.bayFree.set(run.bayFirst);
  run.count = 0;
  run.reach = 0;
}

/** Sets a line to where it is before anything of it is begun. */
export function lookAt(run: Run, line: number): void {
  drawn(run, line);
  run.next[line] = run.columns.pieceFrom[line] ?? 0;
  run.free[line] = -NEVER;
  run.bay[line] = run.columns.standsIn[line] ?? -1;
  setLeast(run, line);
}

/** Sees to it that the minutes of a line are there: they are drawn for all runs at once, when it is first looked at in any. */
export function drawn(run: Run, line: number): void {
  if (run.drawn[line] === NOT_DRAWN) run.drawn[line] = run.draws(run.columns.lists.lines[line] as Line);
}

export function setLeast(run: Run, line: number): void {
  const n = run.next[line] ?? 0;
  run.least[line] = n === run.columns.pieceFrom[line + 1] ? NEVER : leastOf(run, line, n);
  unlearn(run, line);
}

/** What somebody is at waits for nothing. */
function leastOf({ columns, free }: Run, line: number, n: number): number {
  const planned = columns.startMin[n] ?? NEVER;
  if (columns.running[n] === 1) return planned;
  return Math.max(planned, (free[line] ?? 0) + (columns.gapMin[n] ?? 0));
}

function unlearn({ start, known, least }: Run, line: number): void {
  start[line] = least[line] ?? NEVER;
  known[line] = 0;
}

export function isOver(run: Run, line: number): boolean {
  return run.least[line] === NEVER;
}

/** Finds what can be begun first; false when nothing is left that ever could. */
export function findNext(run: Run): boolean {
  const { live, start, known } = run;
  const { firstMin } = run.columns;
  let best = NEVER;
  run.line = -1;
  for (let a = 0; ; a += 1) {
    if (a === run.count) {
      // Lines come by their planned beginning: none that follows can be sooner.
      if (run.reach === run.sequence.length) break;
      const line = run.sequence[run.reach] ?? 0;
      if ((firstMin[line] ?? 0) >= best) break;
      lookAt(run, line);
      live[a] = line;
      run.count += 1;
      run.reach += 1;
    }
    const line = live[a] ?? 0;
    if ((start[line] ?? 0) >= best) continue;
    if (known[line] === 0) findStart(run, line);
    const found = start[line] ?? 0;
    if (found >= best) continue;
    best = found;
    run.line = line;
    run.at = a;
  }
  return run.line >= 0;
}

/** Begins what was found: holds its people until the labour is over, its bay until the car leaves. */
export function begin(run: Run): void {
  const { line, columns } = run;
  const { one, two, dwellMin, enters, leaves } = columns;
  const n = run.next[line] ?? 0;
  const crew = run.crew[line] ?? -1;
  const end = endOf(run, line, n, crew);
  const p = crew < 0 ? NOBODY : (one[crew] ?? 0);
  const q = crew < 0 ? NOBODY : (two[crew] ?? 0);
  if (crew >= 0) {
    run.peopleFree[p] = Math.max(run.peopleFree[p] ?? 0, end);
    run.peopleFree[q] = Math.max(run.peopleFree[q] ?? 0, end);
  }
  run.free[line] = end + (dwellMin[n] ?? 0);
  run.next[line] = n + 1;
  const taken = enters[n] === 1 ? (run.into[line] ?? -1) : -1;
  if (enters[n] === 1) holdBay(run, line, taken);
  const freed = leaves[n] === 1 ? leaveBay(run, line) : NO_BAY;
  setLeast(run, line);
  if (isOver(run, line)) takeOut(run);
  forget(run, { p, q, end, taken, freed });
}
const NOBODY = -2;
const NO_BAY = -1;

/** Takes what was begun from the live lines, of which there are few: moved one by one they are moved soonest. */
function takeOut(run: Run): void {
  const { live } = run;
  run.count -= 1;
  for (let k = run.at; k < run.count; k += 1) live[k] = live[k + 1] ?? 0;
}

/** When the labour of a piece is over. What outlasts any opening is worked over the next ones after all. */
function endOf(run: Run, line: number, n: number, crew: number): number {
  const { works, hours } = run.columns;
  const start = run.start[line] ?? 0;
  if (crew < 0) return start + minutesAt(run, line, n);
  return addFrom(hours, works[crew] ?? 0, start, labourOf(run, line, n, crew));
}

/** Two people who are at it and until when, the bay that is taken, the bay that is left (−1 = none). */
type Change = {
  readonly p: number;
  readonly q: number;
  readonly end: number;
  readonly taken: number;
  readonly freed: number;
};

/**
 * Lines whose start rested on what changed must find theirs anew; all others can only stay as they are, also those that
 * begin once the people are free again. People who are free later and a bay less never let a line begin sooner than the
 * patience with its own people allows, so that most need not be looked at before their turn. A bay that is left may.
 */
function forget(run: Run, { p, q, end, taken, freed }: Change): void {
  const { live, into, crew, count, known, start, least, next } = run;
  const { one, two, bayBits } = run.columns;
  const bit = freed < 0 ? 0 : 1 << (freed & 31);
  for (let k = 0; k < count; k += 1) {
    const line = live[k] ?? 0;
    if (bit !== 0 && into[line] !== NO_BAY && ((bayBits[next[line] ?? 0] ?? 0) & bit) !== 0)
      unlearn(run, line);
    if (known[line] === 0) continue;
    const c = crew[line] ?? -1;
    const a = c < 0 ? -1 : one[c];
    const b = c < 0 ? -1 : two[c];
    const waits = (a === p || b === p || a === q || b === q) && (start[line] ?? 0) < end;
    if (!waits && (taken < 0 || into[line] !== taken)) continue;
    known[line] = 0;
    start[line] = Math.max(least[line] ?? 0, (start[line] ?? 0) - PATIENCE_MIN);
  }
}

function holdBay(run: Run, line: number, bay: number): void {
  run.bay[line] = bay;
  if (bay >= 0) run.held[bay] = (run.held[bay] ?? 0) + 1;
}

/** Which bay that was; −1 when the car held none. */
function leaveBay(run: Run, line: number): number {
  const bay = run.bay[line] ?? NO_BAY;
  if (bay < 0) return NO_BAY;
  run.held[bay] = (run.held[bay] ?? 0) - 1;
  run.bayFree[bay] = Math.max(run.bayFree[bay] ?? 0, run.free[line] ?? 0);
  run.bay[line] = NO_BAY;
  return bay;
}
