import type { JobId, PersonId } from '#core/shared/ids.ts';
import { normal, type Random, seeded } from '#core/shared/random.ts';
import type { Calendar } from './calendar.ts';
import { add, alwaysOpen, NEVER, next, nextFit } from './calendar.ts';
import { bothHours } from './labour.ts';
import { type Board, isOpenStage, type JobPlan, type JobSpec, type Piece, type StageSpec } from './model.ts';
import { slotFrom } from './offers.ts';

/**
 * How sure a promise is: durations are drawn (lognormal, one car hard in all its stages), and pushed through the
 * hours of the people, the moves, and the jobs that come first on the same places and people. Nobody starts before
 * the plan says so, which errs on the safe side. Common random numbers: the same seed for every offer.
 */
export const RUNS = 1000;
/** Spread of log minutes that all stages of one car share. Common practice, no source; learning replaces it. */
export const JOB_SIGMA = 0.15;

type Node = {
  readonly stage: StageSpec;
  readonly job: number;
  readonly startMin: number;
  readonly share: number;
  readonly pace: number;
  readonly hours: Calendar;
  readonly firstInStay: boolean;
  readonly settleMin: number;
  /** Index of the piece of the same job before this one, −1 = none. */
  readonly before: number;
  /** Indices of the pieces that hold its people or its bay until then. */
  readonly people: readonly number[];
  readonly bay: number;
  readonly lastOfStage: boolean;
};

/** Sorted minutes at which each job of `targets` is ready, one per run; empty when it has no work on the board. */
export function simulateReady(
  board: Board,
  targets: readonly JobId[],
  seed: number,
  runs = RUNS,
): ReadonlyMap<JobId, readonly number[]> {
  const { nodes, lasts } = network(board, targets);
  const ready = new Map<JobId, number[]>([...lasts.keys()].map((id) => [id, []]));
  const random = seeded(seed);
  const ends = new Float64Array(nodes.length);
  const labourEnds = new Float64Array(nodes.length);
  const jobZ = new Float64Array(nodes.reduce((most, n) => Math.max(most, n.job + 1), 0));
  for (let run = 0; run < runs; run += 1) {
    for (let j = 0; j < jobZ.length; j += 1) jobZ[j] = normal(random);
    for (let i = 0; i < nodes.length; i += 1) {
      const node = nodes[i];
      if (node) step(board, node, i, jobZ[node.job] ?? 0, { ends, labourEnds, random });
    }
    for (const [id, at] of lasts) ready.get(id)?.push(ends[at] ?? NEVER);
  }
  for (const list of ready.values()) list.sort((a, b) => a - b);
  return ready;
}

type Run = { readonly ends: Float64Array; readonly labourEnds: Float64Array; readonly random: Random };

function step(board: Board, node: Node, at: number, z: number, run: Run): void {
  const { stage } = node;
  let t = node.startMin;
  const before = node.before >= 0 ? (run.ends[node.before] ?? 0) : Number.NEGATIVE_INFINITY;
  const bayFree = node.bay >= 0 ? (run.ends[node.bay] ?? 0) : Number.NEGATIVE_INFINITY;
  const enter = Math.max(before, bayFree);
  if (node.firstInStay && enter > Number.NEGATIVE_INFINITY)
    t = Math.max(t, next(board.open, enter) + node.settleMin);
  else t = Math.max(t, enter);
  for (const p of node.people) t = Math.max(t, run.labourEnds[p] ?? 0);
  const minutes = drawMinutes(stage, z, run.random) * node.share;
  const dwell = node.lastOfStage ? stage.dwellMin : 0;
  if (stage.crew === 0) {
    run.labourEnds[at] = t;
    run.ends[at] = t + minutes + dwell;
    return;
  }
  const labour = Math.max(1, Math.round(minutes * node.pace));
  const end = stage.splittable ? add(node.hours, t, labour) : nextFit(node.hours, t, labour) + labour;
  // A draw longer than any opening is worked over the next ones after all: the car is not left half done.
  run.labourEnds[at] = end === NEVER ? add(node.hours, t, labour) : end;
  run.ends[at] = (run.labourEnds[at] ?? NEVER) + dwell;
}

/** Minutes of a stage at normal pace; of one that runs, what is left, given how long it has taken already. */
function drawMinutes(stage: StageSpec, z: number, random: Random): number {
  const own = Math.sqrt(Math.max(0, stage.sigma ** 2 - JOB_SIGMA ** 2));
  const shared = Math.min(stage.sigma, JOB_SIGMA) * z;
  if (stage.labourMin === 0) return 0;
  if (stage.workedMin <= 0) return Math.exp(stage.mu + shared + own * normal(random));
  for (let tries = 0; tries < 12; tries += 1) {
    const total = Math.exp(stage.mu + shared + own * normal(random));
    if (total > stage.workedMin) return total - stage.workedMin;
  }
  return Math.max(5, stage.workedMin * 0.1);
}

/** The pieces that the targets hang on, in planned order, with what each waits for. */
function network(
  board: Board,
  targets: readonly JobId[],
): { readonly nodes: readonly Node[]; readonly lasts: ReadonlyMap<JobId, number> } {
  const rows = openPieces(board);
  const drafts = linkRows(board, rows);
  const needed = new Set<number>();
  const stack: number[] = [];
  rows.forEach((r, i) => {
    if (targets.includes(r.job.id)) stack.push(i);
  });
  for (let i = stack.pop(); i !== undefined; i = stack.pop()) {
    if (needed.has(i)) continue;
    needed.add(i);
    const d = drafts[i];
    if (d) stack.push(...[d.before, d.bay, ...d.people].filter((x) => x >= 0));
  }
  const order = [...needed].sort((a, b) => a - b);
  const to = new Map(order.map((old, at) => [old, at]));
  const move = (i: number): number => to.get(i) ?? -1;
  const jobs = new Map<JobId, number>();
  const lasts = new Map<JobId, number>();
  const nodes = order.map((old, at): Node => {
    const d = drafts[old] as Node;
    const id = rows[old]?.job.id as JobId;
    if (!jobs.has(id)) jobs.set(id, jobs.size);
    if (targets.includes(id)) lasts.set(id, at);
    return {
      ...d,
      job: jobs.get(id) ?? 0,
      before: move(d.before),
      bay: move(d.bay),
      people: d.people.map(move),
    };
  });
  return { nodes, lasts };
}

type Row = {
  readonly job: JobSpec;
  readonly plan: JobPlan;
  readonly piece: Piece;
  readonly stage: StageSpec;
};

/** Pieces of stages that are not done, in planned order; a running stage counts as starting now. */
function openPieces(board: Board): readonly Row[] {
  const rows: Row[] = [];
  for (const plan of board.plans.values()) {
    const job = board.jobs.get(plan.jobId);
    for (const piece of plan.pieces) {
      const stage = job?.stages.find((s) => s.id === piece.stageId);
      if (job && stage && isOpenStage(stage)) rows.push({ job, plan, piece, stage });
    }
  }
  return rows.sort((a, b) => a.piece.startMin - b.piece.startMin || a.piece.endMin - b.piece.endMin);
}

function linkRows(board: Board, rows: readonly Row[]): readonly Node[] {
  const lastOfJob = new Map<JobId, number>();
  const lastOfPerson = new Map<PersonId, number>();
  const lastInBay = new Map<string, number>();
  const people = new Map(board.technicians.map((t) => [t.id, t]));
  return rows.map((row, at): Node => {
    const { piece, stage, job, plan } = row;
    const place = board.places.find((p) => p.id === piece.bayId);
    const before = lastOfJob.get(job.id) ?? -1;
    const stay = plan.stays.find(
      (s) => s.bayId === piece.bayId && s.arriveMin <= piece.startMin && piece.startMin < s.leaveMin,
    );
    const earlier = before >= 0 ? rows[before]?.piece : undefined;
    const firstInStay =
      !earlier || earlier.bayId !== piece.bayId || earlier.startMin < (stay?.arriveMin ?? 0);
    const inBay = lastInBay.get(piece.bayId) ?? -1;
    const bay = place?.capacity === 1 && inBay >= 0 && rows[inBay]?.job.id !== job.id ? inBay : -1;
    const crew = piece.personIds.flatMap((id) => people.get(id) ?? []);
    const whole = plan.pieces.filter((p) => p.stageId === stage.id);
    const minutes = (p: Piece): number => Math.max(1, p.endMin - p.startMin);
    const hours = crew.map((c) => c.hours).reduce((a, b) => bothHours(a, b), crew[0]?.hours ?? alwaysOpen());
    const held = piece.personIds.map((id) => lastOfPerson.get(id) ?? -1).filter((i) => i >= 0);
    lastOfJob.set(job.id, at);
    lastInBay.set(piece.bayId, at);
    for (const id of piece.personIds) lastOfPerson.set(id, at);
    return {
      stage,
      job: 0,
      startMin: Math.max(piece.startMin, board.nowMin),
      share: minutes(piece) / whole.reduce((sum, p) => sum + minutes(p), 0),
      pace: crew.length === 0 ? 1 : 1_000_000 / (crew.reduce((s, c) => s + c.speedPpm, 0) / crew.length),
      hours,
      firstInStay,
      settleMin: board.moveMin + (place?.setupMin ?? 0),
      before,
      people: held,
      bay,
      lastOfStage: whole.at(-1) === piece,
    };
  });
}

/** The share of runs ready by `t`, in parts per million. */
export function chanceBy(ready: readonly number[], t: number): number {
  if (ready.length === 0) return 0;
  let count = 0;
  while (count < ready.length && (ready[count] ?? NEVER) <= t) count += 1;
  return Math.round((count * 1_000_000) / ready.length);
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
