import { NEVER, nextFitFrom, nextFrom } from './calendar.ts';
import type { Crew, Node } from './network.ts';
import type { Run } from './run.ts';

/** Finds when a line's next piece could begin as things are, by whom and in which bay; NEVER while it has no bay. */
export function findStart(run: Run, line: number): void {
  const node = run.network.lines[line]?.nodes[run.next[line] ?? 0];
  if (!node) return;
  const into = node.enters ? freeBay(node, run) : -1;
  run.into[line] = into;
  run.known[line] = 1;
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

/** Whole minutes that a crew needs for minutes at normal pace. */
export function labourOf(crew: Crew, minutes: number): number {
  return Math.max(1, Math.round(minutes * crew.pace));
}
