import { type Beginning, beginningOf, goOnFrom, holdsFor, isBackAt, keep } from './beginnings.ts';
import { NEVER } from './calendar.ts';
import { columnsOf } from './columns.ts';
import { begin, findNext, isOver, startOver } from './dispatch.ts';
import { drawnOnce, minutesOf } from './draws.ts';
import type { Board, JobPlan, JobSpec } from './model.ts';
import { networkOf } from './network.ts';
import { emptyRun, type Run } from './run.ts';
import { RUNS, readyIn } from './simulate.ts';

/** Sorted minutes at which a job placed like this is ready, one per run; empty when it has no work to be done. */
export type Readier = (plan: JobPlan) => readonly number[];

/**
 * Simulates several placements of one job on one board: the same minutes as `simulateReady` gives for each, but the
 * other cars are drawn once, and are played once up to where the job's own work begins; a car that waits for long
 * after its first work goes on from there as well, once all others stand again as they do without it.
 */
export function readierOf(board: Board, job: JobSpec, seed: number, runs = RUNS): Readier {
  const jobs = new Map(board.jobs).set(job.id, job);
  const others = drawnOnce(seed, runs);
  const kept: Beginning[] = [];
  return (plan) => {
    const network = networkOf(
      { ...board, jobs, plans: new Map(board.plans).set(job.id, plan) },
      new Set([job.id]),
    );
    const own = network.lines.findIndex((l) => l.jobId === job.id);
    if (own < 0) return [];
    const drawn = network.lines.flatMap((l, i) => (i === own ? minutesOf(l, seed, runs) : others(l)));
    const car: Car = { run: emptyRun(columnsOf(network), network, drawn), own, runs };
    const until = longWaits(car);
    const held = kept.filter((b) => b.untilMin <= (until.at(-1) ?? 0) && holdsFor(b, car.run, own));
    const more = playOthers(car, held.at(-1) ?? null, until);
    kept.push(...more);
    kept.sort((a, b) => a.untilMin - b.untilMin);
    return playAll(car, [...held, ...more]);
  };
}

type Car = { readonly run: Run; readonly own: number; readonly runs: number };

/** Waiting less than this between two pieces is not worth finding the others as they were. */
const LONG_WAIT_MIN = 2880;
/** Into so many parts the time that is played for the first time is cut, each of which may be gone on from. */
const PARTS = 8;

/** The planned starts of a car's first piece and of all that it waits long for, and minutes soon after it began to wait. */
function longWaits({ run, own }: Car): readonly number[] {
  const { pieceFrom, startMin } = run.columns;
  const starts = [...startMin.subarray(pieceFrom[own], pieceFrom[own + 1])];
  return starts.flatMap((t, i) => {
    const before = starts[i - 1] ?? -NEVER;
    if (t - before <= LONG_WAIT_MIN) return [];
    return i === 0 ? [t] : [before + LONG_WAIT_MIN / 2, before + LONG_WAIT_MIN, t];
  });
}

/** Plays all cars but its own on from a beginning, and keeps how they stand at each of some minutes, and between them. */
function playOthers(car: Car, from: Beginning | null, until: readonly number[]): readonly Beginning[] {
  const { run, own, runs } = car;
  const startMin = from?.untilMin ?? run.columns.firstMin[0] ?? 0;
  const endMin = until.at(-1) ?? startMin;
  if (from && endMin <= startMin) return [];
  const step = Math.max(1440, (endMin - startMin) / PARTS);
  const between = Array.from({ length: PARTS }, (_, i) => startMin + (i + 1) * step).filter(
    (t) => t < endMin,
  );
  const minutes = [...new Set([...between, ...until])].sort((a, b) => a - b);
  const kept = minutes.filter((t) => !from || t > startMin).map((t) => beginningOf(run, own, t, runs));
  for (run.turn = 0; run.turn < runs; run.turn += 1) {
    startOver(run);
    if (from) goOnFrom(from, run, own);
    leaveOut(run, own);
    for (const to of kept) {
      while (findNext(run) && (run.start[run.line] ?? 0) < to.untilMin) begin(run);
      keep(to, run);
    }
  }
  return kept;
}

function leaveOut(run: Run, own: number): void {
  run.least[own] = NEVER;
  run.start[own] = NEVER;
}

function playAll(car: Car, kept: readonly Beginning[]): readonly number[] {
  const { run, own, runs } = car;
  const ready = new Float64Array(runs);
  for (run.turn = 0; run.turn < runs; run.turn += 1) {
    startOver(run);
    playOwn(car, kept);
    ready[run.turn] = readyIn(run, own);
  }
  return [...ready.sort()];
}

/** Plays a run until its own car is over. Wherever the others stand as they were kept, it goes on from the last of these. */
function playOwn({ run, own }: Car, kept: readonly Beginning[]): void {
  let at = goFurther(run, own, kept, 0);
  for (; at < kept.length && !isOver(run, own); at += 1) {
    const stop = kept[at];
    if (!stop) break;
    playUpTo(run, own, stop.untilMin);
    const waits = (run.least[own] ?? 0) > stop.untilMin;
    if (waits && !isOver(run, own) && isBackAt(stop, run, own)) at = goFurther(run, own, kept, at) - 1;
  }
  playUpTo(run, own, NEVER);
}

/** Goes on from the last beginning before the next work of its own can begin, and says which comes after it. */
function goFurther(run: Run, own: number, kept: readonly Beginning[], at: number): number {
  const until = run.least[own] ?? 0;
  let to = at;
  while (to < kept.length && (kept[to]?.untilMin ?? NEVER) <= until) to += 1;
  const from = kept[to - 1];
  if (from && to > at) goOnFrom(from, run, own);
  return to;
}

/** Begins everything that begins before a minute, until its own car is over. */
function playUpTo(run: Run, own: number, untilMin: number): void {
  while (!isOver(run, own) && findNext(run) && (run.start[run.line] ?? 0) < untilMin) begin(run);
}
