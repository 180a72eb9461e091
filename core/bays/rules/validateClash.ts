import type { JobId } from '#core/shared/ids.ts';
import type { PlanFault } from '#core/shared/views/bays.ts';
import type { StageKind } from '#core/shared/vocabulary.ts';
import type { Board, JobPlan, JobSpec, Piece, Place, Stay } from './model.ts';

/** What the sentence of a clash names: which stretch of which car is in the way of which stretch of this one. */

/** A car in a place. */
export type Standing = {
  readonly job: JobSpec | undefined;
  readonly plan: JobPlan;
  readonly stay: Stay;
};
type Words = PlanFault['words'];
/** Where no stage is to be named. */
const NONE = 'none';

/** The other cars that leave no room in a place, if there are: at some arrival the capacity is already used up. */
export function crowd(board: Board, own: JobId, place: Place, from: number, to: number): readonly Standing[] {
  const others: Standing[] = [];
  for (const plan of board.plans.values()) {
    if (plan.jobId === own) continue;
    for (const stay of plan.stays)
      if (stay.bayId === place.id && stay.arriveMin < to && stay.leaveMin > from)
        others.push({ job: board.jobs.get(plan.jobId), plan, stay });
  }
  for (const at of [from, ...others.map((o) => Math.max(from, o.stay.arriveMin))]) {
    const there = others.filter((o) => o.stay.arriveMin <= at && at < o.stay.leaveMin);
    if (there.length >= place.capacity) return there;
  }
  return [];
}

/** Of several cars that fill a place all are named, and the stretch of the one that leaves it last. */
export function wordsOfClash(board: Board, own: Standing, there: readonly Standing[]): Words {
  const last = there.reduce((a, b) => (b.stay.leaveMin > a.stay.leaveMin ? b : a));
  const clash = { from: Math.max(own.stay.arriveMin, last.stay.arriveMin), to: last.stay.leaveMin };
  const work = workIn(own, clash.from, clash.to);
  const over = own.plan.pieces.every((p) => p.dwellEndMin <= clash.from);
  return {
    other: there.map((o) => o.job?.who ?? '').join(', '),
    fromMin: Math.max(...there.map((o) => o.stay.arriveMin)),
    untilMin: last.stay.leaveMin,
    otherStage: stageIn(last, own.stay.arriveMin, own.stay.leaveMin) ?? NONE,
    ownStage: work ?? NONE,
    ownFor: work ? 'work' : over ? 'collected' : 'waits',
    ownFromMin: Math.max(own.stay.arriveMin, board.nowMin),
    ownUntilMin: own.stay.leaveMin,
  };
}

/** The work that holds somebody. */
export function wordsOfWork(board: Board, plan: JobPlan, piece: Piece): Words {
  const job = board.jobs.get(plan.jobId);
  const stage = job?.stages.find((s) => s.id === piece.stageId);
  const { startMin: fromMin, endMin: untilMin } = piece;
  return { other: job?.who ?? '', otherStage: stage?.kind ?? NONE, fromMin, untilMin };
}

function workIn(of: Standing, from: number, to: number): StageKind | undefined {
  const piece = of.plan.pieces.find(
    (p) => p.bayId === of.stay.bayId && p.startMin < to && p.dwellEndMin > from,
  );
  return of.job?.stages.find((s) => s.id === piece?.stageId)?.kind;
}

/** What is done there in a stretch, or at all. */
function stageIn(of: Standing, from: number, to: number): StageKind | undefined {
  return workIn(of, from, to) ?? workIn(of, of.stay.arriveMin, of.stay.leaveMin);
}
