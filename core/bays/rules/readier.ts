import { type Beginning, beginningOf, goOnFrom, holdsFor, keep } from './beginnings.ts';
import { columnsOf } from './columns.ts';
import { begin, findNext, startOver } from './dispatch.ts';
import { drawnOnce, minutesOf } from './draws.ts';
import type { Board, JobPlan, JobSpec } from './model.ts';
import { networkOf } from './network.ts';
import { emptyRun, type Run } from './run.ts';
import { playOut, RUNS, readyIn } from './simulate.ts';

/** Sorted minutes at which a job placed like this is ready, one per run; empty when it has no work to be done. */
export type Readier = (plan: JobPlan) => readonly number[];

/**
 * Simulates several placements of one job on one board: the same minutes as `simulateReady` gives for each, but the
 * other cars are drawn once, and are played once up to where the job's own work begins.
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
    const run = emptyRun(columnsOf(network), network, drawn);
    const untilMin = run.columns.firstMin[own] ?? 0;
    const from = kept.findLast((b) => b.untilMin <= untilMin && holdsFor(b, run, own)) ?? null;
    const to = from?.untilMin === untilMin ? null : beginningOf(run, own, untilMin, runs);
    const ready = playAll({ run, own, from, to }, runs);
    if (to) kept.push(to);
    kept.sort((a, b) => a.untilMin - b.untilMin);
    return ready;
  };
}

type Play = {
  readonly run: Run;
  readonly own: number;
  readonly from: Beginning | null;
  readonly to: Beginning | null;
};

function playAll({ run, own, from, to }: Play, runs: number): readonly number[] {
  const isTarget = new Uint8Array(run.next.length);
  isTarget[own] = 1;
  const ready = new Float64Array(runs);
  for (run.turn = 0; run.turn < runs; run.turn += 1) {
    if (from) goOnFrom(from, run, own);
    else startOver(run);
    if (to) {
      playUpTo(run, to.untilMin);
      keep(to, run);
    }
    playOut(run, isTarget, 1);
    ready[run.turn] = readyIn(run, own);
  }
  return [...ready.sort()];
}

/** Begins everything that begins before a minute. */
function playUpTo(run: Run, untilMin: number): void {
  while (findNext(run) && (run.start[run.line] ?? 0) < untilMin) begin(run);
}
