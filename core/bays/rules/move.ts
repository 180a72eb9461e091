import type { BayId, PersonId, StageId } from '#core/shared/ids.ts';
import type { PlanFault } from '#core/shared/views/bays.ts';
import { next } from './calendar.ts';
import { BY_CONSENT } from './consent.ts';
import { labourFinder } from './labour.ts';
import {
  arrivalMin,
  type Board,
  isOpenStage,
  type JobPlan,
  type JobSpec,
  type Piece,
  type Stay,
} from './model.ts';
import { occupancyOf } from './occupancy.ts';
import { slotFrom } from './offers.ts';
import { faultsOfJob } from './validate.ts';

/** Where somebody wants a block: these stages, in this place, not before this minute, by this person if named. */
export type MoveWish = {
  readonly stageIds: readonly StageId[];
  readonly bayId: BayId;
  readonly startMin: number;
  readonly personId: PersonId | null;
};
export type MoveResult =
  | { readonly ok: true; readonly plan: JobPlan; readonly consent: readonly PlanFault[] }
  | { readonly ok: false; readonly fault: PlanFault };

/**
 * The plan with a block moved: its stages follow each other in the new place from `startMin` on, each by its own
 * technician where that is possible; the rest of the job keeps its times and the stays close up around it.
 */
export function movedPlan(board: Board, job: JobSpec, plan: JobPlan, wish: MoveWish): JobPlan | null {
  const place = board.places.find((p) => p.id === wish.bayId);
  const moving = job.stages.filter((s) => wish.stageIds.includes(s.id) && isOpenStage(s));
  if (!place || moving.length === 0) return null;
  const occupancy = occupancyOf(board, new Set([job.id]), board.nowMin);
  const rest = plan.pieces.filter((p) => !moving.some((s) => s.id === p.stageId));
  const pieces: Piece[] = [];
  let t = wish.startMin;
  for (const stage of moving) {
    const before = plan.pieces.find((p) => p.stageId === stage.id);
    const own = wish.personId ? [wish.personId] : (before?.personIds ?? []);
    const find = (people: ReadonlySet<PersonId> | null) =>
      labourFinder({ stage, technicians: board.technicians, occupancy, allowed: people }, wish.bayId)(
        t,
        board.horizonMin,
      );
    const labour = (own.length > 0 ? find(new Set(own)) : null) ?? (wish.personId ? null : find(null));
    if (!labour) return null;
    pieces.push({ ...labour, stageId: stage.id, bayId: wish.bayId });
    t = labour.dwellEndMin + stage.leastGapMin;
  }
  const all = [...rest, ...pieces].sort((a, b) => a.startMin - b.startMin);
  return { jobId: job.id, pieces: all, stays: staysFor(board, job, plan, all) };
}

/** Stays that hold the pieces: a car moves when work in the next place is due, in opening hours. */
export function staysFor(
  board: Board,
  job: JobSpec,
  plan: JobPlan,
  pieces: readonly Piece[],
): readonly Stay[] {
  const old = plan.stays[0];
  const oldEnd = plan.stays.at(-1);
  const firstPiece = pieces[0];
  if (!old || !oldEnd || !firstPiece) return plan.stays;
  const stays: Stay[] = [];
  const arriveMin = Math.min(old.arriveMin, firstPiece.startMin);
  if (old.bayId !== firstPiece.bayId) {
    const waitsHere = isYard(board, old.bayId) || job.start.kind === 'here';
    const leave = leaveFor(board, firstPiece, old.arriveMin);
    if (waitsHere && leave > old.arriveMin)
      stays.push({ bayId: old.bayId, arriveMin: old.arriveMin, leaveMin: leave });
  }
  let end = 0;
  for (const piece of pieces) {
    const last = stays.at(-1);
    if (!last) stays.push({ bayId: piece.bayId, arriveMin, leaveMin: piece.dwellEndMin });
    else if (last.bayId !== piece.bayId) {
      const leave = leaveFor(board, piece, end);
      stays[stays.length - 1] = { ...last, leaveMin: leave };
      stays.push({ bayId: piece.bayId, arriveMin: leave, leaveMin: piece.dwellEndMin });
    } else stays[stays.length - 1] = { ...last, leaveMin: piece.dwellEndMin };
    end = piece.dwellEndMin;
  }
  const last = stays.at(-1);
  const out = slotFrom(board, Math.max(end, job.promiseMin ?? 0));
  if (last) stays[stays.length - 1] = { ...last, leaveMin: Math.max(last.leaveMin, out) };
  return stays;
}

function isYard(board: Board, id: BayId): boolean {
  return board.places.find((p) => p.id === id)?.kind === 'yard';
}

/** The latest open minute that still leaves time to move and set up before the work; never before `end`. */
function leaveFor(board: Board, piece: Piece, end: number): number {
  const latest = piece.startMin - arrivalMin(board, piece.bayId);
  const open = next(board.open, latest) === latest ? latest : next(board.open, end);
  return Math.max(end, open);
}

/** How a plan follows a wish: the block alone, or the whole job with it. */
export type Mover = (board: Board, job: JobSpec, plan: JobPlan, wish: MoveWish) => JobPlan | null;

/** Checks a wished move against every rule. Broken promises come back as matters of consent, all else refuses. */
export function checkMove(
  board: Board,
  job: JobSpec,
  plan: JobPlan,
  wish: MoveWish,
  mover: Mover = movedPlan,
): MoveResult {
  const moving = job.stages.filter((s) => wish.stageIds.includes(s.id));
  const gone = moving.find((s) => !isOpenStage(s));
  const stage = moving[0]?.kind ?? '';
  const fault = (rule: PlanFault['rule'], words: PlanFault['words']): MoveResult => ({
    ok: false,
    fault: {
      rule,
      jobId: job.id,
      bayId: wish.bayId,
      personId: wish.personId,
      words: { who: job.who, ...words },
    },
  });
  if (gone) return fault('alreadyDone', { stage: gone.kind });
  if (wish.startMin < board.nowMin) return fault('inThePast', { stage, atMin: wish.startMin });
  const moved = mover(board, job, plan, wish);
  if (!moved)
    return fault(wish.personId ? 'personBusy' : 'crewShort', { person: nameOf(board, wish.personId), stage });
  const faults = faultsOfJob(board, job, moved);
  const hard = faults.find((f) => !BY_CONSENT.includes(f.rule));
  return hard
    ? { ok: false, fault: hard }
    : { ok: true, plan: moved, consent: faults.filter((f) => BY_CONSENT.includes(f.rule)) };
}

function nameOf(board: Board, id: PersonId | null): string {
  return board.technicians.find((t) => t.id === id)?.name ?? '';
}

/** How many places are named. */
const NEAREST = 2;
export type Near = { readonly bayId: BayId; readonly startMin: number };

/** The nearest places that work: the same block tried on a quarter-hour grid around the wish, in every fitting bay. */
export function nearestPlaces(
  board: Board,
  job: JobSpec,
  plan: JobPlan,
  wish: MoveWish,
  mover: Mover = movedPlan,
): readonly Near[] {
  const kinds = job.stages.filter((s) => wish.stageIds.includes(s.id)).map((s) => s.bayKinds);
  const places = board.places.filter((p) => kinds.every((k) => k.includes(p.kind)));
  const found: Near[] = [];
  for (let step = 0; step <= 96 * 5 && found.length < NEAREST; step += step < 32 ? 1 : 4)
    for (const sign of step === 0 ? [1] : [1, -1]) {
      const startMin = next(board.open, wish.startMin + sign * step * 15);
      if (startMin < board.nowMin || startMin > board.horizonMin) continue;
      for (const place of places) {
        if (found.length >= NEAREST || found.some((f) => f.bayId === place.id)) continue;
        const tried = checkMove(board, job, plan, { ...wish, bayId: place.id, startMin }, mover);
        // A whole job that is shifted comes at another time, of course; nothing else may need consent.
        if (tried.ok && tried.consent.every((f) => mover !== movedPlan && f.rule === 'dropOffMoved'))
          found.push({ bayId: place.id, startMin });
      }
    }
  return found;
}
