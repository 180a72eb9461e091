import type { JobId } from '#core/shared/ids.ts';
import { type Random, seeded } from '#core/shared/random.ts';
import { NEVER } from './calendar.ts';
import { begin, findNext, isOver, startOver } from './dispatch.ts';
import { fillNormals, minutesOf } from './draws.ts';
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
  const ready = lines.flatMap((_, line) =>
    isTarget[line] === 1 ? [{ line, minutes: new Float64Array(runs) }] : [],
  );
  const random = seeded(seed);
  const run = emptyRun(board, network);
  const normals = new Float64Array(lines.length + lines.reduce((sum, l) => sum + l.nodes.length, 0));
  for (let i = 0; i < runs; i += 1) {
    fillNormals(normals, random);
    drawMinutes(run, normals, random);
    playOut(run, isTarget, ready.length);
    for (let r = 0; r < ready.length; r += 1) keepReady(run, ready[r], i);
  }
  return new Map(
    ready.flatMap(({ line, minutes }) => {
      const job = lines[line]?.jobId;
      return job ? [[job, [...minutes.sort()]] as const] : [];
    }),
  );
}

// Each step of a run is a function of its own: inside one long loop the engine gives up on them again and again.

/** Draws every piece's minutes: the first normals are the cars' own, then one for each piece. */
function drawMinutes(run: Run, normals: Float64Array, random: Random): void {
  const { lines } = run.network;
  let at = lines.length;
  for (let l = 0; l < lines.length; l += 1) {
    const nodes = lines[l]?.nodes ?? [];
    const minutes = run.minutes[l];
    for (let k = 0; minutes && k < nodes.length; k += 1, at += 1)
      minutes[k] = minutesOf(nodes[k], normals[l] ?? 0, normals[at] ?? 0, random);
  }
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
