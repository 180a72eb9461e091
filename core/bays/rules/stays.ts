import type { BayId } from '#core/shared/ids.ts';
import { isWaiting } from './begun.ts';
import { next, type Span } from './calendar.ts';
import { arrivalMin, type Board, type JobPlan, type JobSpec, type Piece, type Stay } from './model.ts';
import { type Occupancy, occupancyOf } from './occupancy.ts';
import { slotFrom, slotUpTo } from './offers.ts';

/** Where a car stands between and around work whose times are set. */

/**
 * Stays that hold the pieces. A car stays where it is until work in the next place is due, waits in the yard where its
 * place is needed before that, and is driven over in opening hours. Where there is no such way, the stays are those that
 * the work asks for, and what is in their way is for the validator to say.
 */
export function staysFor(
  board: Board,
  job: JobSpec,
  plan: JobPlan,
  pieces: readonly Piece[],
  known?: Occupancy,
): readonly Stay[] {
  const occupancy = known ?? occupancyOf(board, new Set([job.id]), board.nowMin);
  return freeStays({ board, occupancy }, job, plan, pieces) ?? plainStays(board, job, plan, pieces);
}

type Room = { readonly board: Board; readonly occupancy: Occupancy };
/** A car's way so far: the stays behind it, and the one it is in, which it can leave from `freeMin` until the gap ends. */
type Way = {
  readonly stays: readonly Stay[];
  readonly bayId: BayId;
  readonly arriveMin: number;
  readonly gap: Span;
  readonly freeMin: number;
};

function freeStays(room: Room, job: JobSpec, plan: JobPlan, all: readonly Piece[]): readonly Stay[] | null {
  const { nowMin } = room.board;
  const pieces = all.filter((p) => p.startMin >= nowMin);
  const [first] = pieces;
  if (!first) return null;
  const begun = all.filter((p) => p.startMin < nowMin && !isWaiting(job, p.stageId));
  const freeMin = Math.max(nowMin, ...begun.map((p) => p.dwellEndMin));
  let way = job.start.kind === 'here' ? wayFromHere(room, plan, freeMin) : wayIn(room, plan, first);
  for (const piece of pieces) way = way && wayTo(room, way, piece);
  return way && wayOut(room, way, job);
}

/** A car that is here has its stays behind it; where it stands is its place, whoever else is planned there. */
function wayFromHere({ board, occupancy }: Room, plan: JobPlan, freeMin: number): Way | null {
  const been = plan.stays.filter((s) => s.arriveMin <= board.nowMin);
  const current = been.at(-1);
  if (!current) return null;
  const gap = gapAround(occupancy, current.bayId, board.nowMin, board.nowMin);
  const endMin = Math.max(freeMin, gap?.endMin ?? 0);
  const { bayId, arriveMin } = current;
  return { stays: been.slice(0, -1), bayId, arriveMin, gap: { startMin: board.nowMin, endMin }, freeMin };
}

/** Dropped off as agreed, or as late as the work allows: into the yard if that was planned, else straight in, else there. */
function wayIn({ board, occupancy }: Room, plan: JobPlan, piece: Piece): Way | null {
  const [old] = plan.stays;
  if (!old) return null;
  const latest = piece.startMin - arrivalMin(board, piece.bayId);
  const asAgreed = old.arriveMin >= board.nowMin && old.arriveMin <= latest;
  const arriveMin = asAgreed ? old.arriveMin : slotUpTo(board, latest);
  const yards = yardsOf(board).toSorted((a, b) => Number(b === old.bayId) - Number(a === old.bayId));
  const order =
    yards[0] === old.bayId ? [...yards.slice(0, 1), piece.bayId, ...yards.slice(1)] : [piece.bayId, ...yards];
  for (const bayId of order) {
    const gap = gapAround(occupancy, bayId, arriveMin, bayId === piece.bayId ? piece.dwellEndMin : arriveMin);
    if (gap) return { stays: [], bayId, arriveMin, gap, freeMin: arriveMin };
  }
  return null;
}

/** On to the place of a piece: by staying, by driving over when it is due, by way of the yard. */
function wayTo(room: Room, way: Way, piece: Piece): Way | null {
  const { board, occupancy } = room;
  const gap = gapAround(occupancy, piece.bayId, piece.startMin, piece.dwellEndMin);
  if (!gap || way.freeMin > piece.startMin) return null;
  const over = (from: Way): Way | null => {
    const latest = Math.min(piece.startMin - arrivalMin(board, piece.bayId), from.gap.endMin);
    const d = departure(board, Math.max(from.freeMin, gap.startMin), latest);
    if (d === null || occupancy.wouldPass(from.bayId, piece.bayId, d)) return null;
    return { ...driven(from, d, piece.bayId, gap), freeMin: piece.dwellEndMin };
  };
  if (way.bayId === piece.bayId && way.gap.endMin >= piece.dwellEndMin)
    return { ...way, freeMin: piece.dwellEndMin };
  const straight = way.bayId === piece.bayId ? null : over(way);
  return straight ?? firstOf(yardsOf(board), (yard) => intoYard(room, way, yard, over));
}

/** Until it is collected: where it is, or in the yard. */
function wayOut(room: Room, way: Way, job: JobSpec): readonly Stay[] | null {
  const { board } = room;
  const out = slotFrom(board, Math.max(way.freeMin, job.promiseMin ?? 0));
  const end = ({ stays, bayId, arriveMin, gap }: Way): readonly Stay[] | null =>
    gap.endMin >= out ? [...stays, { bayId, arriveMin, leaveMin: out }] : null;
  return end(way) ?? firstOf(yardsOf(board), (yard) => intoYard(room, way, yard, end));
}

/** Driven into a gap of a yard as soon as that can be, and on from there. */
function intoYard<T>(
  { board, occupancy }: Room,
  way: Way,
  yard: BayId,
  on: (way: Way) => T | null,
): T | null {
  if (yard === way.bayId) return null;
  return firstOf(occupancy.placeGaps(yard), (gap) => {
    const d = departure(
      board,
      Math.max(way.freeMin, gap.startMin),
      Math.min(way.gap.endMin, gap.endMin - 1),
      true,
    );
    return d === null ? null : on(driven(way, d, yard, gap));
  });
}

function firstOf<A, B>(rows: readonly A[], of: (row: A) => B | null): B | null {
  for (const row of rows) {
    const found = of(row);
    if (found !== null) return found;
  }
  return null;
}

function driven(from: Way, d: number, bayId: BayId, gap: Span): Way {
  const { stays, bayId: left, arriveMin } = from;
  const behind = d > arriveMin ? [...stays, { bayId: left, arriveMin, leaveMin: d }] : stays;
  return { stays: behind, bayId, arriveMin: d, gap, freeMin: d };
}

/** The latest minute if the shop is open then, else (or if wanted) the first open one; null when there is none between. */
function departure(board: Board, from: number, latest: number, early = false): number | null {
  if (from > latest) return null;
  if (!early && next(board.open, latest) === latest) return latest;
  const first = next(board.open, from);
  return first <= latest ? first : null;
}

/** The gap of a place that holds a whole stretch. */
function gapAround(occupancy: Occupancy, bayId: BayId, from: number, to: number): Span | undefined {
  return occupancy.placeGaps(bayId).find((g) => g.startMin <= from && from < g.endMin && to <= g.endMin);
}

function yardsOf(board: Board): readonly BayId[] {
  return board.places.filter((p) => p.kind === 'yard').map((p) => p.id);
}

/** Stays without regard to other cars: a car moves when work in the next place is due, in opening hours. */
function plainStays(board: Board, job: JobSpec, plan: JobPlan, pieces: readonly Piece[]): readonly Stay[] {
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
