import type { JobId } from '#core/shared/ids.ts';
import type { JobState } from '#core/shared/vocabulary.ts';
import { add, NEVER } from './calendar.ts';
import { bothHours } from './labour.ts';
import {
  type Board,
  type JobPlan,
  type JobSpec,
  type Piece,
  type StageSpec,
  type StartRule,
  USUAL_JOB_SIGMA,
} from './model.ts';

/** What bookings know of a job, as the board needs it. */
export type JobFacts = {
  readonly id: JobId;
  readonly number: number;
  readonly who: string;
  readonly state: JobState;
  readonly dropOffMin: number | null;
  readonly pickUpMin: number | null;
  /** As its newest estimate learned it; null without one. */
  readonly jobSigma: number | null;
};
/** Least that a running stage is still expected to take, and a ready car to stand, minutes. Common practice, no source. */
export const LEAST_LEFT_MIN = 15;

/**
 * A job as it stands now: running work is drawn out to its expected end, work done early no longer holds anybody,
 * and a car that was not moved on still stands where it is. The plan that is kept is not changed by this.
 */
export function liveJob(
  board: Board,
  facts: JobFacts,
  stages: readonly StageSpec[],
  kept: JobPlan,
): { readonly job: JobSpec; readonly plan: JobPlan } {
  const here = facts.state === 'here' || facts.state === 'inWork' || facts.state === 'ready';
  const pieces = kept.pieces.flatMap((p) => livePiece(board, stages, p));
  const plan = here ? stillStanding(board, { ...kept, pieces }) : { ...kept, pieces };
  const job: JobSpec = {
    id: facts.id,
    number: facts.number,
    who: facts.who,
    stages,
    start: startOf(board, facts, stages, plan, here),
    promiseMin: facts.pickUpMin,
    confirmed: facts.dropOffMin !== null,
    jobSigma: facts.jobSigma ?? USUAL_JOB_SIGMA,
  };
  return { job, plan };
}

function livePiece(board: Board, stages: readonly StageSpec[], piece: Piece): readonly Piece[] {
  const stage = stages.find((s) => s.id === piece.stageId);
  if (!stage || stage.state === 'dropped') return piece.endMin <= board.nowMin ? [piece] : [];
  if (stage.state === 'done') {
    if (piece.startMin >= board.nowMin) return [];
    return [{ ...piece, endMin: Math.min(piece.endMin, Math.max(board.nowMin, piece.startMin)) }];
  }
  if (stage.state !== 'inWork') return [piece];
  const crew = piece.personIds.flatMap((id) => board.technicians.find((t) => t.id === id) ?? []);
  const left = Math.max(LEAST_LEFT_MIN, Math.round(stage.labourMin - stage.workedMin));
  const hours = crew.map((c) => c.hours).reduce((a, b) => bothHours(a, b), crew[0]?.hours ?? board.open);
  const expected = add(hours, board.nowMin, left);
  const endMin = Math.max(board.nowMin, expected === NEVER ? board.nowMin + left : expected);
  const startMin = Math.min(piece.startMin, board.nowMin);
  return [{ ...piece, startMin, endMin, dwellEndMin: endMin + (piece.dwellEndMin - piece.endMin) }];
}

/** The place a car is in now: its last planned arrival that has passed, else the first planned place. */
function stillStanding(board: Board, plan: JobPlan): JobPlan {
  const at = Math.max(
    0,
    plan.stays.findLastIndex((s) => s.arriveMin <= board.nowMin),
  );
  const stay = plan.stays[at];
  if (!stay) return plan;
  const work = plan.pieces.filter((p) => p.bayId === stay.bayId && p.startMin <= board.nowMin);
  const least = Math.max(board.nowMin + LEAST_LEFT_MIN, ...work.map((p) => p.dwellEndMin));
  const next = plan.stays[at + 1];
  const leaveMin = next
    ? Math.max(stay.leaveMin, Math.min(least, next.leaveMin - 1))
    : Math.max(stay.leaveMin, least);
  const arriveMin = Math.min(stay.arriveMin, board.nowMin);
  const stays = plan.stays.map((s, i) =>
    i === at ? { ...s, arriveMin, leaveMin } : i === at + 1 ? { ...s, arriveMin: leaveMin } : s,
  );
  return { ...plan, stays };
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
