import type { BayId, JobId, PersonId } from '#core/shared/ids.ts';
import type { PlanFault } from '#core/shared/views/plan.ts';
import type { StageKind } from '#core/shared/vocabulary.ts';
import type { Board, JobPlan, JobSpec, Piece, Place, Stay } from './model.ts';
import type { Found } from './validateApart.ts';

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

/** A car that is driven over where others would have to be driven in the same minute. */
export function checkRound(board: Board, job: JobSpec, before: Stay, stay: Stay, found: Found): void {
  const others = roundOf(board, job.id, before, stay);
  if (others.length === 0) return;
  const bay = board.places.find((p) => p.id === stay.bayId)?.name ?? '';
  found('noRoomToPass', { bayId: stay.bayId, words: { who: job.who, bay, other: others.join(', ') } });
}

/**
 * Who else would have to move in the same minute for a car to go from one full place into another: each into the place
 * of the next, and the last into where this car still stands. Nobody of them could drive off first; where there is a
 * yard, one stands before it meanwhile.
 */
function roundOf(board: Board, own: JobId, from: Stay, into: Stay): readonly string[] {
  const names: string[] = [];
  if (board.places.some((p) => p.kind === 'yard')) return names;
  for (let at = into.bayId; at !== from.bayId; ) {
    if ((board.places.find((p) => p.id === at)?.capacity ?? 0) > 1) return [];
    const next = leaving(board, own, at, into.arriveMin);
    if (!next || names.length > board.places.length) return [];
    names.push(board.jobs.get(next.jobId)?.who ?? '');
    at = next.into;
  }
  return names;
}

/** The car of another job that is driven out of a place at a minute, and where to. */
function leaving(board: Board, own: JobId, bayId: BayId, atMin: number) {
  for (const { jobId, stays } of board.plans.values()) {
    const i = stays.findIndex((s) => s.bayId === bayId && s.leaveMin === atMin && s.arriveMin < atMin);
    const next = stays[i + 1];
    if (jobId !== own && i >= 0 && next) return { jobId, into: next.bayId };
  }
  return null;
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

/** What else somebody is to do meanwhile. Of this job the plan that is asked about counts, not the one it would replace. */
export function otherWork(board: Board, own: JobPlan, piece: Piece, id: PersonId) {
  const meanwhile = (p: Piece): boolean =>
    p.startMin < piece.endMin &&
    piece.startMin < p.endMin &&
    p.personIds.includes(id) &&
    !samePiece(p, piece);
  const mine = own.pieces.find(meanwhile);
  if (mine) return { plan: own, work: mine };
  for (const plan of board.plans.values()) {
    const work = plan.jobId === own.jobId ? undefined : plan.pieces.find(meanwhile);
    if (work) return { plan, work };
  }
  return null;
}

function samePiece(a: Piece, b: Piece): boolean {
  return a.stageId === b.stageId && a.startMin === b.startMin;
}
