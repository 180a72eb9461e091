import type { JobId } from '#core/shared/ids.ts';
import { normal, type Random, seeded } from '#core/shared/random.ts';
import { addFrom, lastAtOrBelow, NEVER, nextFitFrom, nextFrom } from './calendar.ts';
import type { Board } from './model.ts';
import { type Network, type Node, networkOf } from './network.ts';
import { slotFrom } from './offers.ts';

/**
 * How sure a promise is: durations are drawn (lognormal, one car hard in all its stages), and pushed through the
 * hours of the people, the moves, and the jobs that come first on the same places and people. Nobody starts before
 * the plan says so, which errs on the safe side. Common random numbers: the same seed for every offer.
 */
export const RUNS = 1000;

/** Sorted minutes at which each job of `targets` is ready, one per run; empty when it has no work on the board. */
export function simulateReady(
  board: Board,
  targets: readonly JobId[],
  seed: number,
  runs = RUNS,
): ReadonlyMap<JobId, readonly number[]> {
  const network = networkOf(board, new Set(targets));
  const { nodes, lasts, jobCount } = network;
  const ready = [...lasts].map(([id, at]) => ({ id, at, minutes: new Float64Array(runs) }));
  const random = seeded(seed);
  const normals = new Float64Array(jobCount + nodes.length);
  const run: Run = { ends: new Float64Array(nodes.length), labourEnds: new Float64Array(nodes.length) };
  for (let i = 0; i < runs; i += 1) {
    fillNormals(normals, random);
    pass(board, network, run, normals, random);
    for (const target of ready) target.minutes[i] = run.ends[target.at] ?? NEVER;
  }
  return new Map(ready.map((r) => [r.id, [...r.minutes.sort()]]));
}

type Run = { readonly ends: Float64Array; readonly labourEnds: Float64Array };

/** One way it may go: every piece in planned order. */
function pass(board: Board, network: Network, run: Run, normals: Float64Array, random: Random): void {
  const { nodes, jobCount } = network;
  for (let i = 0; i < nodes.length; i += 1) {
    const node = nodes[i];
    if (!node) continue;
    const t = startOf(board, node, run);
    const minutes = minutesOf(node, normals[node.job] ?? 0, normals[jobCount + i] ?? 0, random) * node.share;
    const end = node.attended ? labourEnd(node, t, Math.max(1, Math.round(minutes))) : t;
    run.labourEnds[i] = end;
    run.ends[i] = (node.attended ? end : t + minutes) + node.dwellMin;
  }
}

function startOf(board: Board, node: Node, run: Run): number {
  let enter = node.before >= 0 ? (run.ends[node.before] ?? 0) : Number.NEGATIVE_INFINITY;
  if (node.bay >= 0) enter = Math.max(enter, run.ends[node.bay] ?? 0);
  let t = node.startMin;
  if (node.settleMin < 0) t = Math.max(t, enter);
  else if (enter > Number.NEGATIVE_INFINITY)
    t = Math.max(t, nextFrom(board.open, node.openAt, enter) + node.settleMin);
  for (let p = 0; p < node.people.length; p += 1) t = Math.max(t, run.labourEnds[node.people[p] ?? 0] ?? 0);
  return t;
}

function labourEnd(node: Node, t: number, labour: number): number {
  if (node.splittable) return addFrom(node.hours, node.hoursAt, t, labour);
  const start = nextFitFrom(node.hours, node.hoursAt, t, labour);
  // A draw longer than any opening is worked over the next ones after all: the car is not left half done.
  return start === NEVER ? addFrom(node.hours, node.hoursAt, t, labour) : start + labour;
}

/** Minutes of a stage at normal pace; of one that runs, what is left, given how long it has taken already. */
function minutesOf(node: Node, shared: number, own: number, random: Random): number {
  if (node.empty) return 0;
  const middle = node.mu + node.shared * shared;
  let total = Math.exp(middle + node.own * own);
  if (node.workedMin <= 0) return total;
  for (let tries = 0; tries < 12; tries += 1) {
    if (total > node.workedMin) return total - node.workedMin;
    total = Math.exp(middle + node.own * normal(random));
  }
  return Math.max(5, node.workedMin * 0.1);
}

/** Standard normal draws in pairs (Box–Muller, both of the pair). */
function fillNormals(out: Float64Array, random: Random): void {
  for (let i = 0; i < out.length; i += 2) {
    const radius = Math.sqrt(-2 * Math.log(1 - random()));
    const angle = 2 * Math.PI * random();
    out[i] = radius * Math.cos(angle);
    if (i + 1 < out.length) out[i + 1] = radius * Math.sin(angle);
  }
}

/** The share of runs ready by `t`, in parts per million. `ready` rises. */
export function chanceBy(ready: readonly number[], t: number): number {
  if (ready.length === 0) return 0;
  return Math.round(((lastAtOrBelow(ready, t) + 1) * 1_000_000) / ready.length);
}

/** The minute by which `ppm` of the runs are ready. */
export function quantile(ready: readonly number[], ppm: number): number {
  const at = Math.min(ready.length - 1, Math.max(0, Math.ceil((ready.length * ppm) / 1_000_000) - 1));
  return ready[at] ?? NEVER;
}

/** The first handover slot by which at least `levelPpm` of the runs are ready; NEVER beyond the horizon. */
export function promiseSlot(board: Board, ready: readonly number[], levelPpm: number): number {
  return slotFrom(board, quantile(ready, levelPpm));
}
