import type { JobId, PersonId } from '#core/shared/ids.ts';
import { alwaysOpen, type Calendar, lastAtOrBelow } from './calendar.ts';
import { bothHours } from './labour.ts';
import { type Board, isOpenStage, type JobPlan, type JobSpec, type Piece, type StageSpec } from './model.ts';

/** One piece of work as a simulation needs it: what it waits for, in whose hours, and how its minutes scatter. */
export type Node = {
  /** Index of its car among those drawn for, so that all stages of one car share a draw. */
  readonly job: number;
  readonly startMin: number;
  /** Share of the stage in this piece, times the pace of its crew. */
  readonly share: number;
  readonly attended: boolean;
  readonly splittable: boolean;
  readonly mu: number;
  /** Log scatter that the car's stages share, and that of this stage alone. */
  readonly shared: number;
  readonly own: number;
  /** 0 = not begun; of a stage that runs only longer draws count. */
  readonly workedMin: number;
  readonly empty: boolean;
  readonly dwellMin: number;
  readonly hours: Calendar;
  /** Interval of `hours`, and of the shop's opening, at the planned start: nobody starts before it. */
  readonly hoursAt: number;
  readonly openAt: number;
  /** Minutes to move and settle when the car comes from elsewhere; −1 when it stands here already. */
  readonly settleMin: number;
  /** Indices of the piece of the same car before this one and of the one that holds its bay until then; −1 = none. */
  readonly before: number;
  readonly bay: number;
  readonly people: readonly number[];
};

export type Network = {
  readonly nodes: readonly Node[];
  /** The last piece of each target. */
  readonly lasts: ReadonlyMap<JobId, number>;
  readonly jobCount: number;
};

/** The pieces that the targets hang on, in planned order, with what each waits for. */
export function networkOf(board: Board, targets: ReadonlySet<JobId>): Network {
  const all = openPieces(board);
  const rows = all.slice(0, all.findLastIndex((r) => targets.has(r.job.id)) + 1);
  const linked = linkRows(board, rows);
  const order = neededRows(rows, linked, targets);
  const to = new Int32Array(rows.length).fill(-1);
  order.forEach((old, at) => {
    to[old] = at;
  });
  const move = (i: number): number => to[i] ?? -1;
  const jobs = new Map<JobId, number>();
  const lasts = new Map<JobId, number>();
  const nodes = order.flatMap((old, at): Node[] => {
    const [row, links] = [rows[old], linked[old]];
    if (!row || !links) return [];
    const job = jobs.get(row.job.id) ?? jobs.size;
    jobs.set(row.job.id, job);
    if (targets.has(row.job.id)) lasts.set(row.job.id, at);
    const moved = { before: move(links.before), bay: move(links.bay), people: links.people.map(move) };
    return [nodeOf(board, row, job, { ...links, ...moved })];
  });
  return { nodes, lasts, jobCount: jobs.size };
}

type Row = {
  readonly job: JobSpec;
  readonly plan: JobPlan;
  readonly piece: Piece;
  readonly stage: StageSpec;
};

/** Pieces of stages that are not done, in planned order. */
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

type Links = Pick<Node, 'before' | 'bay' | 'people' | 'settleMin'>;

/** Who waits for whom, by walking the pieces in planned order. */
function linkRows(board: Board, rows: readonly Row[]): readonly Links[] {
  const lastOfJob = new Map<JobId, number>();
  const lastOfPerson = new Map<PersonId, number>();
  const lastInBay = new Map<string, number>();
  const places = new Map(board.places.map((p) => [p.id, p]));
  return rows.map(({ piece, job, plan }, at): Links => {
    const place = places.get(piece.bayId);
    const before = lastOfJob.get(job.id) ?? -1;
    const stay = plan.stays.find(
      (s) => s.bayId === piece.bayId && s.arriveMin <= piece.startMin && piece.startMin < s.leaveMin,
    );
    const earlier = before >= 0 ? rows[before]?.piece : undefined;
    const fresh = !earlier || earlier.bayId !== piece.bayId || earlier.startMin < (stay?.arriveMin ?? 0);
    const inBay = lastInBay.get(piece.bayId) ?? -1;
    const bay = place?.capacity === 1 && inBay >= 0 && rows[inBay]?.job.id !== job.id ? inBay : -1;
    const people = piece.personIds.map((id) => lastOfPerson.get(id) ?? -1).filter((i) => i >= 0);
    lastOfJob.set(job.id, at);
    lastInBay.set(piece.bayId, at);
    for (const id of piece.personIds) lastOfPerson.set(id, at);
    return { before, bay, people, settleMin: fresh ? board.moveMin + (place?.setupMin ?? 0) : -1 };
  });
}

function neededRows(
  rows: readonly Row[],
  linked: readonly Links[],
  targets: ReadonlySet<JobId>,
): readonly number[] {
  const needed = new Set<number>();
  const stack = rows.flatMap((r, i) => (targets.has(r.job.id) ? [i] : []));
  for (let i = stack.pop(); i !== undefined; i = stack.pop()) {
    if (needed.has(i)) continue;
    needed.add(i);
    const links = linked[i];
    if (links) stack.push(...[links.before, links.bay, ...links.people].filter((x) => x >= 0));
  }
  return [...needed].sort((a, b) => a - b);
}

function nodeOf(board: Board, row: Row, job: number, links: Links): Node {
  const { piece, stage, plan } = row;
  const crew = piece.personIds.flatMap((id) => board.technicians.find((t) => t.id === id) ?? []);
  const whole = plan.pieces.filter((p) => p.stageId === stage.id);
  const minutes = (p: Piece): number => Math.max(1, p.endMin - p.startMin);
  const share = minutes(piece) / whole.reduce((sum, p) => sum + minutes(p), 0);
  const pace = crew.length === 0 ? 1 : (1_000_000 * crew.length) / crew.reduce((s, c) => s + c.speedPpm, 0);
  const hours = crew.reduce((a, c) => bothHours(a, c.hours), crew[0]?.hours ?? alwaysOpen());
  const startMin = Math.max(piece.startMin, board.nowMin);
  const shared = Math.min(stage.sigma, row.job.jobSigma);
  return {
    ...links,
    job,
    startMin,
    share: share * pace,
    attended: stage.crew > 0,
    splittable: stage.splittable,
    mu: stage.mu,
    shared,
    own: Math.sqrt(Math.max(0, stage.sigma ** 2 - shared ** 2)),
    workedMin: stage.workedMin,
    empty: stage.labourMin === 0,
    dwellMin: whole.at(-1) === piece ? stage.dwellMin : 0,
    hours,
    hoursAt: Math.max(0, lastAtOrBelow(hours.starts, startMin)),
    openAt: Math.max(0, lastAtOrBelow(board.open.starts, startMin)),
  };
}
