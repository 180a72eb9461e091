import { addFrom, NEVER } from './calendar.ts';
import type { Run } from './run.ts';
import { findStart, labourOf } from './starts.ts';

/** Sets a run back to now; cars that stand where their next work is hold their bay. */
export function startOver(run: Run): void {
  run.next.fill(0);
  run.free.fill(-NEVER);
  run.bay.fill(-1);
  run.peopleFree.fill(-NEVER);
  run.held.fill(0);
  run.bayFree.set(run.network.bayFrom);
  run.count = 0;
  run.reach = 0;
  const { lines } = run.network;
  for (let i = 0; i < lines.length; i += 1) {
    const first = lines[i]?.nodes[0];
    setLeast(run, i);
    if (first && !first.enters) holdBay(run, i, first.bays[0] ?? -1);
  }
}

function setLeast(run: Run, line: number): void {
  const node = run.network.lines[line]?.nodes[run.next[line] ?? 0];
  const plain = node?.running ? node.startMin : Math.max(node?.startMin ?? NEVER, run.free[line] ?? 0);
  run.least[line] = node ? plain : NEVER;
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
  const { firstMin } = run.network;
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
    const i = live[a] ?? 0;
    if ((start[i] ?? NEVER) >= best) continue;
    if (known[i] === 0) findStart(run, i);
    const found = start[i] ?? NEVER;
    if (found >= best) continue;
    best = found;
    run.line = i;
    run.at = a;
  }
  return run.line >= 0;
}

/** Begins what was found: holds its people until the labour is over, its bay until the car leaves. */
export function begin(run: Run): void {
  const { line } = run;
  const k = run.next[line] ?? 0;
  const node = run.network.lines[line]?.nodes[k];
  if (!node) return;
  const startMin = run.start[line] ?? NEVER;
  const minutes = run.minutes[line]?.[k] ?? 0;
  const crew = node.crews[run.crew[line] ?? -1];
  // A draw longer than any opening is worked over the next ones after all: the car is not left half done.
  const end = crew
    ? addFrom(crew.hours, crew.hoursAt, startMin, labourOf(crew, minutes))
    : startMin + minutes;
  const people = crew?.people ?? NOBODY;
  for (let p = 0; p < people.length; p += 1)
    run.peopleFree[people[p] ?? 0] = Math.max(run.peopleFree[people[p] ?? 0] ?? 0, end);
  run.free[line] = end + node.dwellMin;
  run.next[line] = k + 1;
  if (node.enters) holdBay(run, line, run.into[line] ?? -1);
  if (node.leaves) leaveBay(run, line);
  setLeast(run, line);
  if (isOver(run, line)) {
    run.count -= 1;
    run.live.copyWithin(run.at, run.at + 1, run.count + 1);
  }
  forget(run, people[0] ?? NOT, people[1] ?? NOT, node.enters || node.leaves);
}
const NOBODY: readonly number[] = [];

const NOT = -2;

/** Lines whose start rested on two people, or on a bay, must find theirs anew. All others can only stay as they are. */
function forget(run: Run, p: number, q: number, bays: boolean): void {
  const { live, into, one, two, count, known } = run;
  for (let k = 0; k < count; k += 1) {
    const i = live[k] ?? 0;
    if (known[i] === 0) continue;
    const a = one[i];
    const b = two[i];
    if ((bays && into[i] !== -1) || a === p || b === p || a === q || b === q) unlearn(run, i);
  }
}

function holdBay(run: Run, line: number, bay: number): void {
  run.bay[line] = bay;
  if (bay >= 0) run.held[bay] = (run.held[bay] ?? 0) + 1;
}

function leaveBay(run: Run, line: number): void {
  const bay = run.bay[line] ?? -1;
  if (bay < 0) return;
  run.held[bay] = (run.held[bay] ?? 0) - 1;
  run.bayFree[bay] = Math.max(run.bayFree[bay] ?? 0, run.free[line] ?? 0);
  run.bay[line] = -1;
}
