import type { BayId, PersonId } from '#core/shared/ids.ts';
import { alwaysOpen, bothHours, type Calendar } from './calendar.ts';
import type { Board, Place, Technician } from './model.ts';
import type { Row } from './openWork.ts';

/** People by index, and minutes of theirs to a minute at normal pace. The same for every piece they may work on. */
export type Crew = {
  readonly people: readonly number[];
  readonly pace: number;
  readonly hours: Calendar;
};
/** Bays of a kind by index, the planned one first, and minutes that a car takes to be moved there and to settle. */
export type Room = { readonly bays: readonly number[]; readonly settleMin: number };

/** The people and bays of a board as its lines name them. */
export type Roster = {
  readonly board: Board;
  readonly bays: readonly Place[];
  readonly crewsOf: (row: Row) => readonly Crew[];
  readonly roomOf: (bayId: BayId) => Room;
};

export function rosterOf(board: Board): Roster {
  const bays = board.places.filter((p) => p.capacity === 1);
  return { board, bays, crewsOf: crewsOver(board), roomOf: roomsOf(board, bays) };
}

/** Who may work on a piece, nobody on what is not attended. The few crews of a board are put together once. */
function crewsOver(board: Board): (row: Row) => readonly Crew[] {
  const people = new Map(board.technicians.map((t, i) => [t.id, i]));
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

/** Where a car that is planned for a place may go: any bay of the same kind will do as well. Worked out once a place. */
function roomsOf(board: Board, bays: readonly Place[]): (bayId: BayId) => Room {
  const known = new Map<BayId, Room>();
  return (bayId) => {
    const room = known.get(bayId) ?? roomOf(board, bays, bayId);
    known.set(bayId, room);
    return room;
  };
}

function roomOf(board: Board, bays: readonly Place[], bayId: BayId): Room {
  const own = board.places.find((p) => p.id === bayId);
  const others = bays.flatMap((place, i) =>
    place.kind === own?.kind && (place.id === bayId || isOpenThroughout(board, place)) ? [i] : [],
  );
  const first = bays.findIndex((b) => b.id === bayId);
  const fitting = first < 0 ? [] : [first, ...others.filter((i) => i !== first)];
  const setupMin = Math.max(0, ...fitting.map((i) => bays[i]?.setupMin ?? 0));
  return { bays: fitting, settleMin: board.moveMin + setupMin };
}

function isOpenThroughout(board: Board, place: Place): boolean {
  return place.endsMin >= board.horizonMin && !place.closed.some((c) => c.endMin > board.nowMin);
}
