import { NEVER } from './calendar.ts';
import type { Run } from './run.ts';
import { findStart, labourOf, minutesAt, PATIENCE_MIN } from './starts.ts';
import { addFrom } from './walk.ts';

/** Sets a run back to now; cars that stand where their next work is hold their bay. */
export function startOver(run: Run): void {
  const { pieceFrom, enters, bays, bayFrom } = run.columns;
  const lines = run.next.length;
  run.next.set(pieceFrom.subarray(0, lines));
  run.free.fill(-NEVER);
  run.bay.fill(-1);
  run.peopleFree.fill(-NEVER);
  run.held.fill(0);
  run.bayFree.set(run.bayFirst);
  run.count = 0;
  run.reach = 0;
  for (let line = 0; line < lines; line += 1) {
    const first = pieceFrom[line] ?? 0;
    setLeast(run, line);
    if (enters[first] === 0)
      holdBay(run, line, bayFrom[first] === bayFrom[first + 1] ? -1 : (bays[bayFrom[first] ?? 0] ?? -1));
  }
}

export function setLeast(run: Run, line: number): void {
  const { pieceFrom, running, startMin, gapMin } = run.columns;
  const n = run.next[line] ?? 0;
  const planned = startMin[n] ?? NEVER;
  if (n === pieceFrom[line + 1]) run.least[line] = NEVER;
  else
    run.least[line] =
      running[n] === 1 ? planned : Math.max(planned, (run.free[line] ?? 0) + (gapMin[n] ?? 0));
  unlearn(run, line);
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
      if (run.reach === firstMin.length || (firstMin[run.reach] ?? 0) >= best) break;
      live[a] = run.reach;
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
  const freed = leaves[n] === 1 && leaveBay(run, line);
  setLeast(run, line);
  if (isOver(run, line)) {
    run.count -= 1;
    run.live.copyWithin(run.at, run.at + 1, run.count + 1);
  }
  forget(run, { p, q, taken, freed });
}
const NOBODY = -2;

/** When the labour of a piece is over. What outlasts any opening is worked over the next ones after all. */
function endOf(run: Run, line: number, n: number, crew: number): number {
  const { hoursAt, hours } = run.columns;
  const start = run.start[line] ?? 0;
  if (crew < 0) return start + minutesAt(run, n);
  return addFrom(hours, hoursAt[crew] ?? 0, start, labourOf(run, n, crew));
}

/** Two people who are at it, the bay that is taken (−1 = none), whether a bay is left. */
type Change = { readonly p: number; readonly q: number; readonly taken: number; readonly freed: boolean };

/**
 * Lines whose start rested on what changed must find theirs anew; all others can only stay as they are. People who are
 * free later and a bay less never let a line begin sooner than the patience with its own people allows, so that most need
 * not be looked at before their turn. A bay that is left may.
 */
function forget(run: Run, { p, q, taken, freed }: Change): void {
  const { live, into, crew, count, known, start, least } = run;
  const { one, two } = run.columns;
  for (let k = 0; k < count; k += 1) {
    const line = live[k] ?? 0;
    if (freed && into[line] !== -1) unlearn(run, line);
    if (known[line] === 0) continue;
    const c = crew[line] ?? -1;
    const a = c < 0 ? -1 : one[c];
    const b = c < 0 ? -1 : two[c];
    const rests = a === p || b === p || a === q || b === q || (taken >= 0 && into[line] === taken);
    if (!rests) continue;
    known[line] = 0;
    start[line] = Math.max(least[line] ?? 0, (start[line] ?? 0) - PATIENCE_MIN);
  }
}

function holdBay(run: Run, line: number, bay: number): void {
  run.bay[line] = bay;
  if (bay >= 0) run.held[bay] = (run.held[bay] ?? 0) + 1;
}

/** False when the car held none. */
function leaveBay(run: Run, line: number): boolean {
  const bay = run.bay[line] ?? -1;
  if (bay < 0) return false;
  run.held[bay] = (run.held[bay] ?? 0) - 1;
  run.bayFree[bay] = Math.max(run.bayFree[bay] ?? 0, run.free[line] ?? 0);
  run.bay[line] = -1;
  return true;
}
