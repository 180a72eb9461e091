import type { JobId } from '#core/shared/ids.ts';
import { seeded } from '#core/shared/random.ts';
import { NEVER } from './calendar.ts';
import { begin, findNext, isOver, startOver } from './dispatch.ts';
import { fillNormals, minutesOf } from './draws.ts';
import type { Board } from './model.ts';
import { networkOf } from './network.ts';
import { emptyRun } from './run.ts';

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
  const isTarget = lines.map((l) => wanted.has(l.jobId));
  const ready = new Map(isTarget.flatMap((is, i) => (is ? [[i, new Float64Array(runs)] as const] : [])));
  const random = seeded(seed);
  const run = emptyRun(board, network);
  const normals = new Float64Array(lines.length + lines.reduce((sum, l) => sum + l.nodes.length, 0));
  for (let i = 0; i < runs; i += 1) {
    fillNormals(normals, random);
    let at = lines.length;
    lines.forEach(({ nodes }, l) => {
      const minutes = run.minutes[l];
      for (let k = 0; minutes && k < nodes.length; k += 1, at += 1)
        minutes[k] = minutesOf(nodes[k], normals[l] ?? 0, normals[at] ?? 0, random);
    });
    startOver(run);
    for (let left = ready.size; left > 0 && findNext(run); ) {
      begin(run);
      if (isTarget[run.line] && isOver(run, run.line)) left -= 1;
    }
    for (const [l, minutes] of ready) minutes[i] = isOver(run, l) ? (run.free[l] ?? NEVER) : NEVER;
  }
  return new Map(
    [...ready].flatMap(([l, m]) => (lines[l] ? [[lines[l].jobId, [...m.sort()]] as const] : [])),
  );
}
