import { addFrom, NEVER } from './calendar.ts';
import { type Run, UNKNOWN } from './run.ts';
import { findStart, labourOf } from './starts.ts';

/** Sets a run back to now; cars that stand where their next work is hold their bay. */
export function startOver(run: Run): void {
  run.next.fill(0);
  run.free.fill(-NEVER);
  run.bay.fill(-1);
  run.start.fill(UNKNOWN);
  run.peopleFree.fill(-NEVER);
  run.held.fill(0);
  run.bayFree.set(run.network.bayFrom);
  run.first = 0;
  run.reach = 0;
  run.network.lines.forEach(({ nodes: [first] }, i) => {
    setLeast(run, i);
    if (first && !first.enters) holdBay(run, i, first.bays[0] ?? -1);
  });
}

function setLeast(run: Run, line: number): void {
  const node = run.network.lines[line]?.nodes[run.next[line] ?? 0];
  const plain = node?.running ? node.startMin : Math.max(node?.startMin ?? NEVER, run.free[line] ?? 0);
  run.least[line] = node ? plain : NEVER;
}

export function isOver(run: Run, line: number): boolean {
  return run.least[line] === NEVER;
}

/** Finds what can be begun first; false when nothing is left that ever could. */
export function findNext(run: Run): boolean {
  const { least, start } = run;
  const { firstMin } = run.network;
  let best = NEVER;
  run.line = -1;
  while (run.first < least.length && least[run.first] === NEVER) run.first += 1;
  let i = run.first;
  // Lines come by their planned beginning: none that follows can be sooner.
  for (; i < least.length && (firstMin[i] ?? 0) < best; i += 1) {
    if ((least[i] ?? 0) >= best) continue;
    if (start[i] === UNKNOWN) findStart(run, i);
    const found = start[i] ?? NEVER;
    if (found >= best) continue;
    best = found;
    run.line = i;
  }
  run.reach = Math.max(run.reach, i);
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
  run.start[line] = UNKNOWN;
  setLeast(run, line);
  forget(run, people[0] ?? NOT, people[1] ?? NOT, node.enters || node.leaves);
}
const NOBODY: readonly number[] = [];

const NOT = -2;

/** Lines whose start rested on two people, or on a bay, must find theirs anew. All others can only stay as they are. */
function forget({ start, into, one, two, first, reach }: Run, p: number, q: number, bays: boolean): void {
  for (let i = first; i < reach; i += 1) {
    const a = one[i];
    const b = two[i];
    if ((bays && into[i] !== -1) || a === p || b === p || a === q || b === q) start[i] = UNKNOWN;
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
