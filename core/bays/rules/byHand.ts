import type { PersonId } from '#core/shared/ids.ts';
import { bothHours, type Calendar, openBetween } from './calendar.ts';
import {
  type Board,
  type JobPlan,
  type JobSpec,
  LEAST_LEFT_MIN,
  type Piece,
  type StageSpec,
} from './model.ts';

/** What a person set by hand on a plan and a re-plan or a move keeps: ends that were drawn, stages cut in two. */

/** A stage as it is to be placed, or one part of it, with the piece it was planned as. */
export type Part = { readonly stage: StageSpec; readonly piece: Piece | undefined };

/** Room beyond the labour that rounding never makes, and a drawn end does: it goes by quarters of an hour. */
const DRAWN_MIN = 5;
/** Taken off a room before it is rounded up to minutes again, so that it stays as many as it was. */
const HAIR = 1e-6;

/**
 * A stage in the parts it was cut in, each with the room that it has on the plan; the last one with what is left. One that
 * was begun and paused is in one part, with what is left of its labour.
 */
export function partsOf(board: Board, stage: StageSpec, plan: JobPlan | undefined): readonly Part[] {
  const pieces = plan?.pieces.filter((p) => p.stageId === stage.id) ?? [];
  const [only] = pieces;
  if (stage.state === 'paused') {
    const labourMin = Math.max(LEAST_LEFT_MIN, stage.labourMin - stage.workedMin);
    return [{ stage: { ...stage, labourMin }, piece: only }];
  }
  if (stage.state !== 'planned' || stage.crew === 0 || !only) return [{ stage, piece: only }];
  const rooms = pieces.map((p) => labourIn(board, p));
  const before = rooms.slice(0, -1).reduce((sum, room) => sum + room, 0);
  return pieces.map((piece, i): Part => {
    const room = rooms[i] ?? 0;
    if (i < pieces.length - 1) return { stage: { ...stage, ...AS_HEAD, labourMin: room - HAIR }, piece };
    return { stage: { ...stage, labourMin: roomFor(stage.labourMin - before, room) }, piece };
  });
}
/** The rest of a stage follows it whenever that can be, and what cures cures after the rest. */
const AS_HEAD = { dwellMin: 0, leastGapMin: 0, mostGapMin: null } as const;

/** Labour minutes at normal pace that a stage is planned with: what it needs, or the room that somebody gave it. */
export function roomFor(labourMin: number, room: number): number {
  return room >= labourMin + DRAWN_MIN ? room - HAIR : Math.max(0, labourMin);
}

/** A stage in one, with all the room that its parts have: somebody took all of it. */
export function wholeOf(board: Board, stage: StageSpec, plan: JobPlan): Part {
  const parts = partsOf(board, stage, plan);
  const labourMin = parts.reduce((sum, p) => sum + p.stage.labourMin, 0);
  return { stage: { ...stage, labourMin }, piece: parts[0]?.piece };
}

/** Stages that wait, in their parts, and who was given a part of one that was cut: nobody else takes that over unasked. */
export function handSet(
  board: Board,
  job: JobSpec,
  stages: readonly StageSpec[],
): { readonly stages: readonly StageSpec[]; readonly only: ReadonlyMap<StageSpec, ReadonlySet<PersonId>> } {
  const plan = board.plans.get(job.id);
  const only = new Map<StageSpec, ReadonlySet<PersonId>>();
  const all = stages.flatMap((stage) => {
    const parts = partsOf(board, stage, plan);
    if (parts.length > 1)
      for (const part of parts) if (part.piece) only.set(part.stage, new Set(part.piece.personIds));
    return parts.map((p) => p.stage);
  });
  return { stages: all, only };
}

type Crew = { readonly hours: Calendar; readonly speeds: readonly number[] };

/** Hours and paces of whoever is planned; the shop's own where they are not known any more. */
export function crewOf(board: Board, piece: Piece): Crew {
  const people = piece.personIds.flatMap((id) => board.technicians.find((t) => t.id === id) ?? []);
  const [first] = people;
  if (!first) return { hours: board.open, speeds: [1_000_000] };
  return {
    hours: people.reduce((hours, t) => bothHours(hours, t.hours), first.hours),
    speeds: people.map((t) => t.speedPpm),
  };
}

/** Minutes of labour, at normal pace, that a piece has room for. */
export function labourIn(board: Board, piece: Piece): number {
  const { hours, speeds } = crewOf(board, piece);
  const mean = speeds.reduce((a, b) => a + b, 0) / speeds.length;
  return (openBetween(hours, piece.startMin, piece.endMin) * mean) / 1_000_000;
}
