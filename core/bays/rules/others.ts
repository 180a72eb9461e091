import type { JobId } from '#core/shared/ids.ts';
import { type Before, isBackAs } from './backAt.ts';
import { type Calendar, FAR_MIN, lastAtOrBelow, lastBelow, NEVER } from './calendar.ts';
import { carryOn } from './carryOn.ts';
import { type Columns, columnsOf } from './columns.ts';
import { begin, findNext, startOver } from './dispatch.ts';
import { type Draws, minutesOf } from './draws.ts';
import { type LineChanges, lineChanges, sameNumbers } from './lineChanges.ts';
import type { Board } from './model.ts';
import { type Line, type Network, networkOf } from './network.ts';
import { type Roster, rosterOf } from './roster.ts';
import { emptyRun, inOrder, type Run } from './run.ts';
import { emptyStand, goOnFrom, keep, renumber, type Stand } from './stands.ts';

/**
 * All cars of a board but one, played over and over without it from now on, as far as was asked for so far: how they stand
 * once a day. What a car's own work comes to hangs on the others before it and beside it only, so it is played on from there.
 */
export type Others = {
  readonly dice: Dice;
  readonly roster: Roster;
  readonly network: Network;
  readonly columns: Columns;
  readonly draws: Draws;
  /** Minutes that were drawn, as long as a line is the same. */
  readonly minutes: WeakMap<Line, Float64Array>;
  readonly run: Run;
  /** A day apart, rising: exactly what playing from the beginning comes to, whatever they were made over from. */
  readonly stands: Stand[];
};
/** The same seed and the same number of runs for all that is compared. */
export type Dice = { readonly seed: number; readonly runs: number };

/**
 * What is remembered from one question to the next, so that only what differs is played anew: the last board's others. For each
 * run and day that is eight bytes a person, twelve a bay and twenty a car that is not through, and eight for each run and
 * piece that was drawn: 33 MB for 400 cars over twelve weeks with ten people and twelve bays.
 */
export type Memory = { others: Others | null };

export const DAY_MIN = 1440;
/** Not kept for more days than these, which bounds what is remembered; a plan ends long before. */
const MOST_STANDS = 100;

/**
 * The others of a board: what stands of them as it was remembered is kept, run by run. Those that were remembered are
 * theirs from then on, and of no use any more.
 */
export function othersOf(board: Board, without: JobId | null, dice: Dice, memory: Memory): Others {
  const plans = new Map(board.plans);
  if (without !== null) plans.delete(without);
  const roster = rosterOf({ ...board, plans });
  const network = networkOf(roster, new Set());
  const known = knownOf(roster, dice, memory);
  const changed = known && lineChanges(known.network.lines, network.lines);
  const next = setUp(roster, network, dice);
  // What is known is made over in place: it is nobody's while that is going on.
  memory.others = null;
  if (known && changed) takeOver(next, known, changed);
  memory.others = next;
  return next;
}

function setUp(roster: Roster, network: Network, dice: Dice): Others {
  const { lines, open, peopleCount, bayFirst } = network;
  const columns = columnsOf(lines, open);
  const minutes = new WeakMap<Line, Float64Array>();
  const draws: Draws = (line) => {
    const drawn = minutes.get(line) ?? minutesOf(line, dice.seed, dice.runs);
    minutes.set(line, drawn);
    return drawn;
  };
  const run = emptyRun({ columns, sequence: inOrder(lines.length), draws, peopleCount, bayFirst });
  return { dice, roster, network, columns, draws, minutes, run, stands: [] };
}

/** What is remembered where that is of the same people, bays, hours and dice, be the cars what they may. */
export function knownOf(roster: Roster, dice: Dice, { others }: Memory): Others | null {
  const fits = others?.dice.seed === dice.seed && others.dice.runs === dice.runs;
  return fits && isSameShop(others.roster, roster) ? others : null;
}

/** The same people, bays and hours; all else of a board stands in its lines. */
function isSameShop(a: Roster, b: Roster): boolean {
  const [was, now] = [a.board.technicians, b.board.technicians];
  return (
    isSameHours(a.board.open, b.board.open) &&
    a.bays.length === b.bays.length &&
    a.bays.every((p, i) => p.id === b.bays[i]?.id) &&
    was.length === now.length &&
    was.every((t, i) => t.id === now[i]?.id && isSameHours(t.hours, now[i].hours))
  );
}

function isSameHours(a: Calendar, b: Calendar): boolean {
  return sameNumbers(a.starts, b.starts) && sameNumbers(a.ends, b.ends);
}

/** Takes over the minutes of lines that are the same, and how they stand wherever that is as it was. */
function takeOver(to: Others, from: Others, changes: LineChanges): void {
  const { isNow, was, differ } = changes;
  to.network.lines.forEach((line, i) => {
    const old = differ[i] === 0 ? from.network.lines[was[i] ?? -1] : undefined;
    const drawn = old && from.minutes.get(old);
    if (drawn) to.minutes.set(line, drawn);
  });
  const isMoved = isNow.some((n, i) => n !== i || differ[n] !== 0);
  for (const stand of from.stands) {
    if (stand.untilMin <= to.roster.board.nowMin) continue;
    if (isMoved) renumber(stand, changes);
    to.stands.push(stand);
  }
  const first = isSameFirst(from.run, to.run) ? [] : [-FAR_MIN];
  playAnew(to, { ...changes, minutes: [...first, ...changes.minutes], columns: from.columns });
}

/** Whether bays are held and free alike at first. Where they are not, that is a change from the very beginning. */
export function isSameFirst(a: Run, b: Run): boolean {
  return sameNumbers(a.heldFirst, b.heldFirst) && sameNumbers(a.bayFirst, b.bayFirst);
}

/** Plays each run anew from wherever a line that differs may be begun until it is back at how it stood before. */
function playAnew({ run, stands, dice }: Others, before: Before): void {
  const { minutes } = before;
  if (minutes.length === 0 || stands.length === 0) return;
  const upTo = (t: number): number => lastAtOrBelow(untilMin, t);
  const untilMin = stands.map((s) => s.untilMin);
  for (run.turn = 0; run.turn < dice.runs; run.turn += 1) {
    for (let at = upTo(minutes[0] ?? 0); at < stands.length; ) {
      const back = playUntilBack(run, stands, at, before);
      const nextMin = minutes[lastBelow(minutes, untilMin[back] ?? NEVER) + 1];
      const to = nextMin === undefined ? stands.length : upTo(nextMin);
      carryOn(run, stands.slice(back, to + 1), before);
      at = to;
    }
  }
}

/** Plays a run on from a stand (−1 = from the beginning) and keeps how it stands, until it is back; says at which it is. */
function playUntilBack(run: Run, stands: readonly Stand[], from: number, before: Before): number {
  const start = stands[from];
  if (start) goOnFrom(start, run, NONE);
  else startOver(run);
  for (let at = from + 1; at < stands.length; at += 1) {
    const stand = stands[at] as Stand;
    playUpTo(run, stand.untilMin);
    if (isBackAs(stand, run, before)) return at;
    keep(stand, run);
  }
  return stands.length;
}
const NONE = -1;

function playUpTo(run: Run, untilMin: number): void {
  while (findNext(run) && (run.start[run.line] ?? 0) < untilMin) begin(run);
}

/** Plays the others on until they stand at the last of the daily minutes up to one that is asked for. */
export function playOthers({ run, stands, dice, roster }: Others, untilMin: number): void {
  const last = stands.at(-1);
  const firstMin = roster.board.open.starts[0] ?? 0;
  const offset = Math.abs(firstMin) < FAR_MIN ? firstMin % DAY_MIN : 0;
  const fromDay = Math.floor(((last?.untilMin ?? roster.board.nowMin) - offset) / DAY_MIN) + 1;
  const count = Math.min(
    MOST_STANDS - stands.length,
    Math.floor((untilMin - offset) / DAY_MIN) - fromDay + 1,
  );
  if (count <= 0) return;
  const more = Array.from({ length: count }, (_, d) =>
    emptyStand(run, (fromDay + d) * DAY_MIN + offset, dice.runs),
  );
  for (run.turn = 0; run.turn < dice.runs; run.turn += 1) {
    if (last) goOnFrom(last, run, NONE);
    else startOver(run);
    for (const stand of more) {
      playUpTo(run, stand.untilMin);
      keep(stand, run);
    }
  }
  stands.push(...more);
}
