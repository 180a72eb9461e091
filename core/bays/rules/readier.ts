import { isBackAt } from './backAt.ts';
import { NEVER } from './calendar.ts';
import { withLine } from './columns.ts';
import { begin, findNext, isOver, lookAt, startOver } from './dispatch.ts';
import { minutesOf } from './draws.ts';
import { isSameLine, sameNumbers } from './lineChanges.ts';
import type { Board, JobPlan, JobSpec } from './model.ts';
import { joining, type Line } from './network.ts';
import { type Dice, isSameFirst, type Memory, type Others, othersOf, playOthers } from './others.ts';
import { emptyRun, type Run } from './run.ts';
import { readyIn } from './simulate.ts';
import { goOnFrom, type Stand } from './stands.ts';

/** Sorted minutes at which a job placed like this is ready, one per run; empty when it has no work to be done. */
export type Readier = (plan: JobPlan) => readonly number[];

/**
 * Simulates several placements of one job on one board: the same minutes as `simulateReady` gives for each, but the
 * other cars are played once up to where the job's own work begins, and what is remembered of them from another board
 * is gone on with where they stand as they did; a car that waits for long after its first work goes on from where all
 * others stand again as they do without it.
 */
export function readierOf(board: Board, job: JobSpec, dice: Dice, memory: Memory): Readier {
  let others = othersOf(board, job.id, dice, memory);
  const told: Told[] = [];
  return (plan) => {
    const joins = joining(others.roster, others.network.bayFirst, job, plan);
    if (!joins) return [];
    const known = told.find((t) => isSameLine(t.line, joins.line) && sameNumbers(t.bayFirst, joins.bayFirst));
    if (known) return known.ready;
    const car = carOf(others, joins.line, joins.bayFirst);
    if (!isSameFirst(others.run, car.run)) others = besideHeld(others, car.run);
    playOthers(others, longWait(joins.line));
    const ready = playAll(car, others.stands);
    told.push({ ...joins, ready });
    return ready;
  };
}

/** Placements that differ in when the car comes only, say, are played once. */
type Told = { readonly line: Line; readonly bayFirst: Float64Array; readonly ready: readonly number[] };

type Car = { readonly run: Run; readonly own: number; readonly runs: number };

/** The others with one more line, numbered after all of them; of two planned for the same minutes it comes first. */
function carOf({ network, columns, draws, dice }: Others, line: Line, bayFirst: Float64Array): Car {
  const own = network.lines.length;
  const place = network.lines.findIndex(
    ({ rank: [startMin, endMin] }) =>
      startMin > line.rank[0] || (startMin === line.rank[0] && endMin >= line.rank[1]),
  );
  const before = place < 0 ? own : place;
  const sequence = Int32Array.from({ length: own + 1 }, (_, i) =>
    i < before ? i : i === before ? own : i - 1,
  );
  const run = emptyRun({
    columns: withLine(columns, line),
    sequence,
    draws: (l) => (l === line ? minutesOf(l, dice.seed, dice.runs) : draws(l)),
    ...{ peopleCount: network.peopleCount, bayFirst },
  });
  return { run, own, runs: dice.runs };
}

/** A car that stands in a bay from the beginning keeps others from it: they are played anew beside it, for this job alone. */
function besideHeld(others: Others, { heldFirst, bayFirst }: Run): Others {
  return { ...others, run: { ...others.run, heldFirst, bayFirst }, stands: [] };
}

/** Waiting less than this between two pieces is not worth playing the others further than to the first. */
const LONG_WAIT_MIN = 2880;

/** The planned start of the last piece that a car waits long for; that of its first where it never does. */
function longWait({ nodes }: Line): number {
  const last = nodes.findLast((n, i) => n.startMin - (nodes[i - 1]?.startMin ?? -NEVER) > LONG_WAIT_MIN);
  return last?.startMin ?? 0;
}

function playAll(car: Car, stands: readonly Stand[]): readonly number[] {
  const { run, own, runs } = car;
  const ready = new Float64Array(runs);
  for (run.turn = 0; run.turn < runs; run.turn += 1) {
    startOver(run);
    lookAt(run, own);
    playOwn(car, stands);
    ready[run.turn] = readyIn(run, own);
  }
  return [...ready.sort()];
}

/** Plays a run until its own car is over. Wherever the others stand as they were kept, it goes on from the last of these. */
function playOwn({ run, own }: Car, stands: readonly Stand[]): void {
  let at = goFurther(run, own, stands, 0);
  for (; at < stands.length && !isOver(run, own); at += 1) {
    const stop = stands[at];
    if (!stop) break;
    playUpTo(run, own, stop.untilMin);
    const waits = (run.least[own] ?? 0) > stop.untilMin;
    if (waits && !isOver(run, own) && isBackAt(stop, run, own)) at = goFurther(run, own, stands, at) - 1;
  }
  playUpTo(run, own, NEVER);
}

/** Goes on from the last stand before the next work of its own can begin, and says which comes after it. */
function goFurther(run: Run, own: number, stands: readonly Stand[], at: number): number {
  const until = run.least[own] ?? 0;
  let to = at;
  while (to < stands.length && (stands[to]?.untilMin ?? NEVER) <= until) to += 1;
  const from = stands[to - 1];
  if (from && to > at) goOnFrom(from, run, own);
  return to;
}

/** Begins everything that begins before a minute, until its own car is over. */
function playUpTo(run: Run, own: number, untilMin: number): void {
  while (!isOver(run, own) && findNext(run) && (run.start[run.line] ?? 0) < untilMin) begin(run);
}
