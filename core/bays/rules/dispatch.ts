import { addFrom, NEVER, nextFitFrom, nextFrom } from './calendar.ts';
import type { Board } from './model.ts';
import type { Crew, Network, Node } from './network.ts';

/**
 * One way a day may go: whatever can be begun first is begun first, the earlier planned of two. Nobody starts before
 * the plan says so, which errs on the safe side. A car goes into another bay of the kind when its own is not free yet,
 * and somebody else who can do it takes over from who would keep it waiting. A car that is done with its bay does not
 * block it. Starts never go back in time, so people and bays are simply free from some minute on.
 */
export type Run = {
  readonly board: Board;
  readonly network: Network;
  /** Minutes drawn for each node of each line. */
  readonly minutes: readonly Float64Array[];
  /** Per line: its next node, when its car is free (−NEVER: has not come), the bay it holds (−1 = none). */
  readonly next: Int32Array;
  readonly free: Float64Array;
  readonly bay: Int32Array;
  /** Per line: before this it cannot begin, whatever bay and whoever it gets (NEVER = it is over). */
  readonly least: Float64Array;
  /** Per line, kept while it holds: when it could begin (UNKNOWN = to be found), by which crew, into which bay. */
  readonly start: Float64Array;
  readonly crew: Int32Array;
  readonly into: Int32Array;
  /** Per line: the people of that crew, at most two (−1 = nobody). */
  readonly one: Int32Array;
  readonly two: Int32Array;
  readonly peopleFree: Float64Array;
  /** Per bay: how many cars hold it, and since when it is free. */
  readonly held: Int32Array;
  readonly bayFree: Float64Array;
  /** What is begun next; the first line that is not over, and the last that was looked at. */
  line: number;
  first: number;
  reach: number;
};
const UNKNOWN = -1;

export function emptyRun(board: Board, network: Network): Run {
  const { lines, peopleCount, bayFrom } = network;
  const whole = (): Int32Array => new Int32Array(lines.length);
  const times = (): Float64Array => new Float64Array(lines.length);
  return {
    ...{ board, network },
    minutes: lines.map((l) => new Float64Array(l.nodes.length)),
    ...{ next: whole(), free: times(), bay: whole() },
    ...{ least: times(), start: times(), crew: whole(), into: whole() },
    ...{ one: whole(), two: whole() },
    peopleFree: new Float64Array(peopleCount),
    held: new Int32Array(bayFrom.length),
    bayFree: new Float64Array(bayFrom.length),
    ...{ line: -1, first: 0, reach: 0 },
  };
}

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

function findStart(run: Run, line: number): void {
  const node = run.network.lines[line]?.nodes[run.next[line] ?? 0];
  if (!node) return;
  const into = node.enters ? freeBay(node, run) : -1;
  run.into[line] = into;
  run.start[line] = NEVER;
  if (into === HELD) return;
  const t = carFrom(node, run, line, into);
  const minutes = run.minutes[line]?.[run.next[line] ?? 0] ?? 0;
  const at = soonestCrew(node, run, t, minutes);
  const crew = node.crews[at];
  run.crew[line] = at;
  run.one[line] = crew?.people[0] ?? -1;
  run.two[line] = crew?.people[1] ?? -1;
  const waits = crew !== undefined && !node.running;
  run.start[line] = waits ? startOf(node, crew, freeFrom(crew, run, t), minutes) : t;
}

/** Every bay that would do is taken by a car whose end is not known yet. */
const HELD = -2;

/** The bay that is free first, its own of two; −1 for a place that holds many cars. */
function freeBay(node: Node, run: Run): number {
  if (node.bays.length === 0 || node.running) return node.bays[0] ?? -1;
  let best = HELD;
  let bestFree = NEVER;
  for (let b = 0; b < node.bays.length; b += 1) {
    const bay = node.bays[b] ?? 0;
    const free = Math.max(node.startMin - node.settleMin, run.bayFree[bay] ?? 0);
    if ((run.held[bay] ?? 0) > 0 || free >= bestFree) continue;
    best = bay;
    bestFree = free;
  }
  return best;
}

/** When the car stands where it is to be. */
function carFrom(node: Node, run: Run, line: number, into: number): number {
  const least = run.least[line] ?? 0;
  if (!node.enters || node.running) return least;
  const enter = Math.max(run.free[line] ?? 0, into < 0 ? -NEVER : (run.bayFree[into] ?? 0));
  if (enter === -NEVER) return least;
  return Math.max(least, nextFrom(run.board.open, node.openAt, enter) + node.settleMin);
}

/** Who would keep a car waiting for less than this is waited for. Common practice, no source. */
const PATIENCE_MIN = 30;

/** Who was planned, unless somebody else can begin clearly sooner; −1 when nobody is needed. */
function soonestCrew(node: Node, run: Run, t: number, minutes: number): number {
  const { crews } = node;
  const [planned] = crews;
  if (!planned || crews.length < 2 || node.running) return planned ? 0 : -1;
  let best = 0;
  let bestFrom = startOf(node, planned, freeFrom(planned, run, t), minutes) - PATIENCE_MIN;
  for (let c = 1; c < crews.length && bestFrom > t; c += 1) {
    const crew = crews[c] as Crew;
    const free = freeFrom(crew, run, t);
    const from = free < bestFrom ? startOf(node, crew, free, minutes) : NEVER;
    if (from >= bestFrom) continue;
    best = c;
    bestFrom = from;
  }
  return best;
}

/** When all of a crew have done what they began, not before `t`. */
function freeFrom({ people }: Crew, run: Run, t: number): number {
  let from = t;
  for (let p = 0; p < people.length; p += 1) from = Math.max(from, run.peopleFree[people[p] ?? 0] ?? 0);
  return from;
}

/** The first minute from `t` on in their hours, in which it fits in one go where the labour may not be split. */
function startOf({ splittable }: Node, crew: Crew, t: number, minutes: number): number {
  const whole = splittable ? NEVER : nextFitFrom(crew.hours, crew.hoursAt, t, labourOf(crew, minutes));
  return whole === NEVER ? nextFrom(crew.hours, crew.hoursAt, t) : whole;
}

function labourOf(crew: Crew, minutes: number): number {
  return Math.max(1, Math.round(minutes * crew.pace));
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
