import type { BayId, JobId, PersonId } from '#core/shared/ids.ts';
import { alwaysOpen, bothHours, type Calendar, NEVER } from './calendar.ts';
import type { Board, Piece, Place, Technician } from './model.ts';
import { nearbyWork, type Row } from './nearby.ts';

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
/** People by index, and minutes of theirs to a minute at normal pace. The same for every piece they may work on. */
export type Crew = {
  readonly people: readonly number[];
  readonly pace: number;
  readonly hours: Calendar;
};
/** A car's pieces in order, one after the other. */
export type Line = { readonly jobId: JobId; readonly number: number; readonly nodes: readonly Node[] };

/** `lines` are sorted by the planned start of their first piece. `bayFrom` is when each bay is first free. */
export type Network = {
  readonly lines: readonly Line[];
  readonly open: Calendar;
  readonly peopleCount: number;
  readonly bayFrom: readonly number[];
};

/** The work that the targets may have to wait for, a line for each car. */
export function networkOf(board: Board, targets: ReadonlySet<JobId>): Network {
  const near = nearbyWork(board, targets);
  const people = new Map(board.technicians.map((t, i) => [t.id, i]));
  const bays = baysOf(board, near);
  const shop = { crewsOf: crewsOver(board, people), roomOf: roomsOf(board, bays) };
  const lines = [...Map.groupBy(near, (r) => r.job.id)].map(([jobId, own]): Line => {
    const nodes = own.map((row, i) => nodeOf(board, row, { ...shop, before: own[i - 1], after: own[i + 1] }));
    return { jobId, number: own[0]?.job.number ?? 0, nodes };
  });
  return { lines, open: board.open, peopleCount: people.size, bayFrom: bays.map((b) => b.freeMin) };
}

type Bay = { readonly place: Place; readonly freeMin: number };

/** Bays for one car each; what stands there now and has no work left there holds its bay until it is to leave. */
function baysOf(board: Board, rows: readonly Row[]): readonly Bay[] {
  const worked = new Set(rows.map((r) => `${r.job.id}/${r.piece.bayId}`));
  return board.places
    .filter((p) => p.capacity === 1)
    .map((place) => {
      let freeMin = -NEVER;
      for (const plan of board.plans.values())
        for (const s of plan.stays)
          if (s.bayId === place.id && s.arriveMin < board.nowMin && !worked.has(`${plan.jobId}/${place.id}`))
            freeMin = Math.max(freeMin, s.leaveMin);
      return { place, freeMin };
    });
}

type Around = {
  readonly crewsOf: (row: Row) => readonly Crew[];
  readonly roomOf: (bayId: BayId) => Room;
  readonly before: Row | undefined;
  readonly after: Row | undefined;
};

function nodeOf(board: Board, row: Row, around: Around): Node {
  const { piece, stage } = row;
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
    crews: around.crewsOf(row),
    ...stayOf(row, around),
  };
}

/** Who may work on a piece, nobody on what is not attended. The few crews of a board are put together once. */
function crewsOver(board: Board, people: ReadonlyMap<PersonId, number>): (row: Row) => readonly Crew[] {
  const known = new Map<string, readonly Crew[]>();
  return (row) => {
    const { piece, stage } = row;
    if (stage.crew === 0) return NOBODY;
    const key = `${piece.personIds.join('/')} ${stage.state === 'inWork' ? '' : stage.skill}`;
    const crews = known.get(key) ?? teamsOf(board, row).map((team) => crewOf(team, people));
    known.set(key, crews);
    return crews;
  };
}
const NOBODY: readonly Crew[] = [];

/** Those who are planned, and each who could do it alone just as well. A stage that runs stays with whoever is at it. */
function teamsOf(board: Board, { piece, stage }: Row): readonly (readonly Technician[])[] {
  const planned = piece.personIds.flatMap((id) => board.technicians.find((t) => t.id === id) ?? []);
  if (planned.length !== 1 || stage.state === 'inWork') return [planned];
  const others = board.technicians.filter((t) => t !== planned[0] && t.skills.includes(stage.skill));
  return [planned, ...others.map((t) => [t])];
}

function crewOf(team: readonly Technician[], people: ReadonlyMap<PersonId, number>): Crew {
  return {
    people: team.map((t) => people.get(t.id) ?? 0),
    pace: team.length === 0 ? 1 : (1_000_000 * team.length) / team.reduce((sum, c) => sum + c.speedPpm, 0),
    hours: team.reduce((a, c) => bothHours(a, c.hours), team[0]?.hours ?? alwaysOpen()),
  };
}

function shareOf({ piece, plan }: Row): number {
  const minutes = (p: Piece): number => Math.max(1, p.endMin - p.startMin);
  const whole = plan.pieces.filter((p) => p.stageId === piece.stageId);
  return minutes(piece) / whole.reduce((sum, p) => sum + minutes(p), 0);
}

function isLastOf({ piece, plan }: Row): boolean {
  return plan.pieces.findLast((p) => p.stageId === piece.stageId) === piece;
}

type InBay = Room & Pick<Node, 'enters' | 'leaves'>;

/** Whether the car comes to its place for this piece and leaves it after. */
function stayOf({ piece, plan, job }: Row, { roomOf, before, after }: Around): InBay {
  const stay = plan.stays.find(
    (s) => s.bayId === piece.bayId && s.arriveMin <= piece.startMin && piece.startMin < s.leaveMin,
  );
  const same = (r: Row | undefined, in_: boolean): boolean =>
    r !== undefined && r.piece.bayId === piece.bayId && in_;
  const stands = !before && job.start.kind === 'here' && job.start.bayId === piece.bayId;
  const enters = !same(before, (before?.piece.startMin ?? 0) >= (stay?.arriveMin ?? 0)) && !stands;
  const leaves = !same(after, (after?.piece.startMin ?? 0) < (stay?.leaveMin ?? 0));
  return { ...roomOf(piece.bayId), enters, leaves };
}

type Room = Pick<Node, 'settleMin' | 'bays'>;

/** Where a car that is planned for a place may go: any bay of the same kind will do as well. Worked out once a place. */
function roomsOf(board: Board, bays: readonly Bay[]): (bayId: BayId) => Room {
  const known = new Map<BayId, Room>();
  return (bayId) => {
    const room = known.get(bayId) ?? roomOf(board, bays, bayId);
    known.set(bayId, room);
    return room;
  };
}

function roomOf(board: Board, bays: readonly Bay[], bayId: BayId): Room {
  const own = board.places.find((p) => p.id === bayId);
  const others = bays.flatMap(({ place }, i) =>
    place.kind === own?.kind && (place.id === bayId || isOpenThroughout(board, place)) ? [i] : [],
  );
  const first = bays.findIndex((b) => b.place.id === bayId);
  const fitting = first < 0 ? [] : [first, ...others.filter((i) => i !== first)];
  const setupMin = Math.max(0, ...fitting.map((i) => bays[i]?.place.setupMin ?? 0));
  return { bays: fitting, settleMin: board.moveMin + setupMin };
}

function isOpenThroughout(board: Board, place: Place): boolean {
  return place.endsMin >= board.horizonMin && !place.closed.some((c) => c.endMin > board.nowMin);
}
