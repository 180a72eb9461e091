import type { JobId } from '#core/shared/ids.ts';
import type { JobState } from '#core/shared/vocabulary.ts';
import { crewOf, labourIn, roomFor } from './byHand.ts';
import { add, NEVER } from './calendar.ts';
import {
  type Board,
  type JobPlan,
  type JobSpec,
  LEAST_LEFT_MIN,
  labourAt,
  type Piece,
  type StageSpec,
  type StartRule,
  USUAL_JOB_SIGMA,
  unattendedMin,
} from './model.ts';

/** What bookings know of a job, as the board needs it. */
export type JobFacts = {
  readonly id: JobId;
  readonly number: number;
  readonly who: string;
  readonly state: JobState;
  readonly dropOffMin: number | null;
  readonly pickUpMin: number | null;
  /** Minutes that a minute after its pick-up counts for. */
  readonly lateWeight: number;
  /** As its newest estimate learned it; null without one. */
  readonly jobSigma: number | null;
  /** When the car was fetched; null while it has not been. */
  readonly goneMin: number | null;
};
/**
 * A job as it stands now: running work is drawn out to its expected end, work done early no longer holds anybody,
 * a car that was not moved on still stands where it is, and one that was fetched holds no place. The plan that is kept is
 * not changed by this.
 */
export function liveJob(
  board: Board,
  facts: JobFacts,
  stages: readonly StageSpec[],
  kept: JobPlan,
): { readonly job: JobSpec; readonly plan: JobPlan } {
  const here = isHere(facts.state);
  const pieces = kept.pieces.flatMap((p) => livePiece(board, stages, kept, p));
  const plan = here ? stillStanding(board, stages, { ...kept, pieces }) : fetched({ ...kept, pieces }, facts);
  const job: JobSpec = {
    id: facts.id,
    number: facts.number,
    who: facts.who,
    stages,
    start: startOf(board, facts, stages, plan, here),
    promiseMin: facts.pickUpMin,
    lateWeight: facts.lateWeight,
    confirmed: facts.dropOffMin !== null,
    jobSigma: facts.jobSigma ?? USUAL_JOB_SIGMA,
  };
  return { job, plan };
}

/** The stays of a car up to when it was fetched; the first at least for a minute. */
function fetched(plan: JobPlan, { goneMin }: JobFacts): JobPlan {
  if (goneMin === null) return plan;
  const endMin = Math.max(goneMin, (plan.stays[0]?.arriveMin ?? 0) + 1);
  const stays = plan.stays.filter((s) => s.arriveMin < endMin);
  return { ...plan, stays: stays.map((s) => (s.leaveMin > endMin ? { ...s, leaveMin: endMin } : s)) };
}

export function isHere(state: JobState): boolean {
  return state === 'here' || state === 'inWork' || state === 'ready';
}

function livePiece(
  board: Board,
  stages: readonly StageSpec[],
  kept: JobPlan,
  piece: Piece,
): readonly Piece[] {
  const stage = stages.find((s) => s.id === piece.stageId);
  if (!stage || stage.state === 'dropped') return piece.endMin <= board.nowMin ? [piece] : [];
  if (stage.state === 'done') return doneBy(board, piece);
  return [stage.state === 'inWork' ? runningOn(board, stage, kept, piece) : piece];
}

/** What is done holds nobody any more; what dries after it dries from then on. */
function doneBy(board: Board, piece: Piece): readonly Piece[] {
  if (piece.startMin >= board.nowMin) return [];
  const endMin = Math.min(piece.endMin, board.nowMin);
  return [{ ...piece, endMin, dwellEndMin: endMin + (piece.dwellEndMin - piece.endMin) }];
}

/**
 * The piece that somebody is at goes on from now for as long as its stage has left, less what later pieces of the stage
 * will do; where somebody drew its end, as long as that gives it. Of a stage that was split, what lies behind and what is still to come stay as they are.
 */
function runningOn(board: Board, stage: StageSpec, kept: JobPlan, piece: Piece): Piece {
  const { nowMin } = board;
  const same = kept.pieces.filter((p) => p.stageId === stage.id);
  const now = same.findLast((p) => p.startMin <= nowMin) ?? same[0];
  if (piece !== now) return piece;
  const startMin = Math.min(piece.startMin, nowMin);
  if (stage.crew === 0) {
    const left = Math.max(0, unattendedMin(stage) - stage.workedMin);
    return { ...piece, startMin, endMin: startMin, dwellEndMin: nowMin + left };
  }
  const later = same.filter((p) => p.startMin > piece.startMin && p.startMin > nowMin);
  const room = (pieces: readonly Piece[]): number => pieces.reduce((sum, p) => sum + labourIn(board, p), 0);
  const labourMin = roomFor(stage.labourMin, room(same)) - stage.workedMin - room(later);
  const { hours, speeds } = crewOf(board, piece);
  const left = Math.max(LEAST_LEFT_MIN, labourAt({ ...stage, labourMin }, speeds));
  const expected = add(hours, nowMin, left);
  const endMin = expected === NEVER ? nowMin + left : expected;
  return { ...piece, startMin, endMin, dwellEndMin: endMin + (piece.dwellEndMin - piece.endMin) };
}

/**
 * The place a car is in now: where somebody works on it, else its last planned arrival that has passed, else the first
 * planned place. Places that it was to have left again by the time it is free are passed over.
 */
function stillStanding(board: Board, stages: readonly StageSpec[], plan: JobPlan): JobPlan {
  const at = Math.max(0, placeNow(board, stages, plan));
  const stay = plan.stays[at];
  if (!stay) return plan;
  const work = plan.pieces.filter((p) => p.bayId === stay.bayId && p.startMin <= board.nowMin);
  const least = Math.max(board.nowMin + LEAST_LEFT_MIN, ...work.map((p) => p.dwellEndMin));
  const later = plan.stays.slice(at + 1);
  // The last place stays its last place, however late it gets there.
  const ahead = later.filter((s, i) => s.leaveMin > board.nowMin || i === later.length - 1);
  const next = ahead[0];
  const leaveMin = next
    ? Math.max(stay.leaveMin, Math.min(least, next.leaveMin - 1))
    : Math.max(stay.leaveMin, least);
  const now = { ...stay, arriveMin: Math.min(stay.arriveMin, board.nowMin), leaveMin };
  const rest = ahead.map((s, i) => (i === 0 ? { ...s, arriveMin: leaveMin } : s));
  return { ...plan, stays: [...plan.stays.slice(0, at), now, ...rest] };
}

function placeNow(board: Board, stages: readonly StageSpec[], plan: JobPlan): number {
  const runs = plan.pieces.findLast(
    (p) => p.startMin <= board.nowMin && stages.some((s) => s.id === p.stageId && s.state === 'inWork'),
  );
  const there = runs
    ? plan.stays.findLastIndex((s) => s.bayId === runs.bayId && s.arriveMin <= runs.startMin)
    : -1;
  return there >= 0 ? there : plan.stays.findLastIndex((s) => s.arriveMin <= board.nowMin);
}

function startOf(
  board: Board,
  facts: JobFacts,
  stages: readonly StageSpec[],
  plan: JobPlan,
  here: boolean,
): StartRule {
  const stay = plan.stays.findLast((s) => s.arriveMin <= board.nowMin);
  if (here && stay) {
    const running = plan.pieces.filter((p) =>
      stages.some((s) => s.id === p.stageId && (s.state === 'inWork' || s.state === 'done')),
    );
    const busyUntil = Math.max(board.nowMin, ...running.map((p) => p.dwellEndMin));
    return { kind: 'here', bayId: stay.bayId, fromMin: busyUntil };
  }
  if (facts.state === 'collected' || facts.state === 'cancelled') return { kind: 'over' };
  if (!here && facts.state !== 'noShow' && facts.dropOffMin !== null)
    return { kind: 'agreed', dropOffMin: facts.dropOffMin };
  return { kind: 'free', notBeforeMin: board.nowMin };
}
