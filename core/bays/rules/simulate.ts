import type { JobId } from '#core/shared/ids.ts';
import { NEVER } from './calendar.ts';
import { columnsOf } from './columns.ts';
import { begin, findNext, isOver, startOver } from './dispatch.ts';
import { type Draws, minutesOf } from './draws.ts';
import type { Board } from './model.ts';
import { networkOf } from './network.ts';
import { rosterOf } from './roster.ts';
import { emptyRun, inOrder, type Run } from './run.ts';

/**
 * How a board may go: durations are drawn (lognormal, one car hard in all its stages), and pushed through the hours of
 * the people, the moves, and the cars on the same places and people, as run.ts says. Common random numbers: the
 * same seed for every offer.
 */
export const RUNS = 500;

/**
 * Sorted minutes at which each job of `targets` is ready, one per run; empty when it has no work on the board. Whoever
 * simulates a board several times with one car changed may keep the draws of the others: `draw`.
 */
export function simulateReady(
  board: Board,
  targets: readonly JobId[],
  seed: number,
  runs = RUNS,
  draw: Draws = (line) => minutesOf(line, seed, runs),
): ReadonlyMap<JobId, readonly number[]> {
  const wanted = new Set(targets);
  const { lines, open, peopleCount, bayFirst } = networkOf(rosterOf(board), wanted);
  const isTarget = Uint8Array.from(lines, (l) => (wanted.has(l.jobId) ? 1 : 0));
  const ready = lines.flatMap(({ jobId }, line) =>
    wanted.has(jobId) ? [{ jobId, line, minutes: new Float64Array(runs) }] : [],
  );
  const columns = columnsOf(lines, open);
  const run = emptyRun({ columns, sequence: inOrder(lines.length), draws: draw, peopleCount, bayFirst });
  for (run.turn = 0; run.turn < runs; run.turn += 1) {
    startOver(run);
    playOut(run, isTarget, ready.length);
    for (const { line, minutes } of ready) minutes[run.turn] = readyIn(run, line);
  }
  return new Map(ready.map(({ jobId, minutes }) => [jobId, [...minutes.sort()]]));
}

// Each step of a run is a function of its own: inside one long loop the engine gives up on them again and again.

/** Begins one piece after the other until all targets are over. */
function playOut(run: Run, isTarget: Uint8Array, targets: number): void {
  for (let left = targets; left > 0 && findNext(run); ) {
    begin(run);
    if (isTarget[run.line] === 1 && isOver(run, run.line)) left -= 1;
  }
}

/** When a car is ready in a run that was played out; NEVER if it never is. */
export function readyIn(run: Run, line: number): number {
  return isOver(run, line) ? (run.free[line] ?? NEVER) : NEVER;
}
