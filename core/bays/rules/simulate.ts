import type { JobId } from '#core/shared/ids.ts';
import { NEVER } from './calendar.ts';
import { columnsOf } from './columns.ts';
import { begin, findNext, isOver, startOver } from './dispatch.ts';
import { minutesOf } from './draws.ts';
import type { Board } from './model.ts';
import { networkOf } from './network.ts';
import { emptyRun, type Run } from './run.ts';

/**
 * How a board may go: durations are drawn (lognormal, one car hard in all its stages), and pushed through the hours of
 * the people, the moves, and the cars on the same places and people, as run.ts says. Common random numbers: the
 * same seed for every offer.
 */
export const RUNS = 500;

/** Sorted minutes at which each job of `targets` is ready, one per run; empty when it has no work on the board. */
export function simulateReady(
  board: Board,
  targets: readonly JobId[],
  seed: number,
  runs = RUNS,
): ReadonlyMap<JobId, readonly number[]> {
  const wanted = new Set(targets);
  const network = networkOf(board, wanted);
  const { lines } = network;
  const isTarget = Uint8Array.from(lines, (l) => (wanted.has(l.jobId) ? 1 : 0));
  const ready = lines.flatMap(({ jobId }, line) =>
    wanted.has(jobId) ? [{ jobId, line, minutes: new Float64Array(runs) }] : [],
  );
  const drawn = lines.flatMap((line) => minutesOf(line, seed, runs));
  const run = emptyRun(columnsOf(network), network.peopleCount, network.bayFrom);
  for (let i = 0; i < runs; i += 1) {
    takeMinutes(run, drawn, i);
    playOut(run, isTarget, ready.length);
    for (let r = 0; r < ready.length; r += 1) keepReady(run, ready[r], i);
  }
  return new Map(ready.map(({ jobId, minutes }) => [jobId, [...minutes.sort()]]));
}

// Each step of a run is a function of its own: inside one long loop the engine gives up on them again and again.

function takeMinutes({ minutes }: Run, drawn: readonly Float64Array[], at: number): void {
  for (let n = 0; n < drawn.length; n += 1) minutes[n] = drawn[n]?.[at] ?? 0;
}

/** Begins one piece after the other until all targets are over. */
function playOut(run: Run, isTarget: Uint8Array, targets: number): void {
  startOver(run);
  for (let left = targets; left > 0 && findNext(run); ) {
    begin(run);
    if (isTarget[run.line] === 1 && isOver(run, run.line)) left -= 1;
  }
}

type Ready = { readonly line: number; readonly minutes: Float64Array };

function keepReady(run: Run, ready: Ready | undefined, at: number): void {
  if (ready) ready.minutes[at] = isOver(run, ready.line) ? (run.free[ready.line] ?? NEVER) : NEVER;
}
