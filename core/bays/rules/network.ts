import type { JobId } from '#core/shared/ids.ts';
import { type Calendar, NEVER } from './calendar.ts';
import type { JobPlan, JobSpec, Piece } from './model.ts';
import { openWork, openWorkOf, type Row } from './openWork.ts';
import type { Crew, Room, Roster } from './roster.ts';

/** One piece of work as a simulation needs it: what it needs, in whose hours, and how its minutes scatter. */
export type Node = {
  readonly startMin: number;
  /** Its place in the plan of the job. */
  readonly order: number;
  /** Share of the stage in this piece. */
  readonly share: number;
  readonly splittable: boolean;
  /** Somebody is at it now: it waits for nothing. */
  readonly running: boolean;
  readonly mu: number;
  /** Log scatter that the car's stages share, and that of this stage alone. */
  readonly shared: number;
  readonly own: number;
  /** 0 = not begun; of a stage that runs only longer draws count. */
  readonly workedMin: number;
  readonly empty: boolean;
  readonly dwellMin: number;
  /** Least minutes after the piece before is over. */
  readonly gapMin: number;
  /** Who may work on it, as planned first; none for what nobody attends. */
  readonly crews: readonly Crew[];
  /** The car is driven in for this piece, and takes minutes to move and settle. */
  readonly enters: boolean;
  readonly settleMin: number;
  /** Bays that will do, the planned one first: indices; none for a place of many cars. */
  readonly bays: readonly number[];
  /** The car leaves its bay after this piece. */
  readonly leaves: boolean;
};
/**
 * A car's pieces in order, one after the other, and the planned start and end of the first as the plan has it, which its
 * place among the lines hangs on.
 */
export type Line = {
  readonly jobId: JobId;
  readonly number: number;
  readonly nodes: readonly Node[];
  readonly rank: readonly [startMin: number, endMin: number];
};

/** `lines` are sorted by the planned start of their first piece. `bayFirst` is when each bay is first free. */
export type Network = {
  readonly lines: readonly Line[];
  readonly open: Calendar;
  readonly peopleCount: number;
  readonly bayFirst: Float64Array;
};

/** All work that is open, a line for each car; of two planned for the same minutes one of `first` comes first. */
export function networkOf(roster: Roster, first: ReadonlySet<JobId>): Network {
  const { board, bays } = roster;
  const byJob = Map.groupBy(openWork(board, first), (r) => r.job.id);
  const bayFirst = new Float64Array(bays.length).fill(-NEVER);
  for (const plan of board.plans.values()) standFrom(roster, bayFirst, plan, byJob.get(plan.jobId) ?? []);
  const lines = [...byJob.values()].map((rows) => lineOf(roster, rows));
  return { lines, open: board.open, peopleCount: board.technicians.length, bayFirst };
}

/** One more car placed like this: its line, and when bays are first free with it. Null when it has no work on the board. */
export function joining(
  roster: Roster,
  bayFirst: Float64Array,
  job: JobSpec,
  plan: JobPlan,
): { readonly line: Line; readonly bayFirst: Float64Array } | null {
  const rows = openWorkOf(job, plan);
  if (rows.length === 0) return null;
  const withIt = bayFirst.slice();
  standFrom(roster, withIt, plan, rows);
  return { line: lineOf(roster, rows), bayFirst: withIt };
}

function lineOf(roster: Roster, rows: readonly Row[]): Line {
  const [first] = rows;
  const nodes = rows.map((row, i) => nodeOf(row, { roster, before: rows[i - 1], after: rows[i + 1] }));
  const { startMin = 0, endMin = 0 } = first?.piece ?? {};
  return { jobId: first?.job.id as JobId, number: first?.job.number ?? 0, nodes, rank: [startMin, endMin] };
}

/** What stands in a bay for one car now and has no work left there holds it until it is to leave. */
function standFrom(
  { board, bays }: Roster,
  freeMin: Float64Array,
  plan: JobPlan,
  rows: readonly Row[],
): void {
  for (const { bayId, arriveMin, leaveMin } of plan.stays) {
    if (arriveMin >= board.nowMin || rows.some((r) => r.piece.bayId === bayId)) continue;
    const at = bays.findIndex((p) => p.id === bayId);
    if (at >= 0) freeMin[at] = Math.max(freeMin[at] ?? -NEVER, leaveMin);
  }
}

type Around = {
  readonly roster: Roster;
  readonly before: Row | undefined;
  readonly after: Row | undefined;
};

function nodeOf(row: Row, around: Around): Node {
  const { piece, stage } = row;
  const { board, crewsOf } = around.roster;
  const startMin = Math.max(piece.startMin, board.nowMin);
  const shared = Math.min(stage.sigma, row.job.jobSigma);
  return {
    startMin,
    order: row.order,
    share: shareOf(row),
    splittable: stage.splittable,
    running: stage.state === 'inWork',
    mu: stage.mu,
    shared,
    own: Math.sqrt(Math.max(0, stage.sigma ** 2 - shared ** 2)),
    workedMin: stage.workedMin,
    empty: stage.labourMin === 0,
    dwellMin: isLastOf(row) ? stage.dwellMin : 0,
    gapMin: around.before && around.before.stage !== stage ? around.before.stage.leastGapMin : 0,
    crews: crewsOf(row),
    ...stayOf(row, around),
  };
}

function shareOf({ piece, plan }: Row): number {
  const minutes = (p: Piece): number => Math.max(1, p.endMin - p.startMin);
  const whole = plan.pieces.filter((p) => p.stageId === piece.stageId);
  if (whole.length === 1) return 1;
  return minutes(piece) / whole.reduce((sum, p) => sum + minutes(p), 0);
}

function isLastOf({ piece, plan }: Row): boolean {
  return plan.pieces.findLast((p) => p.stageId === piece.stageId) === piece;
}

type InBay = Room & Pick<Node, 'enters' | 'leaves'>;

/** Whether the car comes to its place for this piece and leaves it after. */
function stayOf({ piece, plan, job }: Row, { roster, before, after }: Around): InBay {
  const stay = plan.stays.find(
    (s) => s.bayId === piece.bayId && s.arriveMin <= piece.startMin && piece.startMin < s.leaveMin,
  );
  const same = (r: Row | undefined, in_: boolean): boolean =>
    r !== undefined && r.piece.bayId === piece.bayId && in_;
  const stands = !before && job.start.kind === 'here' && job.start.bayId === piece.bayId;
  const enters = !same(before, (before?.piece.startMin ?? 0) >= (stay?.arriveMin ?? 0)) && !stands;
  const leaves = !same(after, (after?.piece.startMin ?? 0) < (stay?.leaveMin ?? 0));
  return { ...roster.roomOf(piece.bayId), enters, leaves };
}
