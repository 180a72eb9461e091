import type { BayId, PersonId, StageId } from '#core/shared/ids.ts';
import { partsOf, wholeOf } from './byHand.ts';
import { next, openBetween } from './calendar.ts';
import { arrivalMin, type Board, type JobPlan, type JobSpec, type Piece } from './model.ts';
import { laidFrom, type MoveWish, movedPlan } from './move.ts';
import { type Occupancy, occupancyOf } from './occupancy.ts';
import { staysFor } from './stays.ts';

/** One block of a job: its stages, as they stand in one place. */
export type Block = { readonly job: JobSpec; readonly plan: JobPlan; readonly stageIds: readonly StageId[] };

/** Two blocks with places and starts exchanged; null when one of them has no work that can move. */
export function swappedPlans(board: Board, a: Block, b: Block): readonly JobPlan[] | null {
  const [atA, atB] = [spotOf(a), spotOf(b)];
  if (!atA || !atB) return null;
  const toB = movedPlan(without(board, b), a.job, a.plan, { ...atB, stageIds: a.stageIds });
  const toA = movedPlan(without(board, a), b.job, b.plan, { ...atA, stageIds: b.stageIds });
  return toA && toB ? [toB, toA] : null;
}

function spotOf(block: Block): { bayId: BayId; startMin: number; personId: null } | null {
  const first = block.plan.pieces.find((p) => block.stageIds.includes(p.stageId));
  return first ? { bayId: first.bayId, startMin: first.startMin, personId: null } : null;
}

function without(board: Board, block: Block): Board {
  const plans = new Map(board.plans);
  plans.delete(block.job.id);
  return { ...board, plans };
}

export type SplitWish = {
  readonly stageId: StageId;
  readonly atMin: number;
  /** Who takes the rest; null leaves it with whoever has it. */
  readonly personId: PersonId | null;
};

/** The plan with a stage cut in two at a minute inside its work; null where it may not be cut. */
export function splitPlan(board: Board, job: JobSpec, plan: JobPlan, wish: SplitWish): JobPlan | null {
  const { atMin } = wish;
  const stage = job.stages.find((s) => s.id === wish.stageId);
  const piece = plan.pieces.find((p) => p.stageId === wish.stageId && p.startMin < atMin && atMin < p.endMin);
  if (!stage?.splittable || !piece) return null;
  const crew = board.technicians.find((t) => piece.personIds.includes(t.id));
  if (crew && openBetween(crew.hours, piece.startMin, atMin) <= 0) return null;
  const head: Piece = { ...piece, endMin: atMin, dwellEndMin: atMin };
  const personIds = wish.personId ? [wish.personId] : piece.personIds;
  const tail: Piece = { ...piece, startMin: atMin, personIds };
  return { ...plan, pieces: plan.pieces.flatMap((p) => (p === piece ? [head, tail] : [p])) };
}

export type ResizeWish = { readonly stageId: StageId; readonly endMin: number };

/** The plan with the end of a stage's work drawn to a minute; its dwell and the car's stay follow. */
export function resizedPlan(board: Board, job: JobSpec, plan: JobPlan, wish: ResizeWish): JobPlan | null {
  const piece = plan.pieces.findLast((p) => p.stageId === wish.stageId);
  if (!piece || wish.endMin <= piece.startMin) return null;
  const dwellEndMin = wish.endMin + (piece.dwellEndMin - piece.endMin);
  const resized = { ...piece, endMin: wish.endMin, dwellEndMin };
  const pieces = plan.pieces.map((p) => (p === piece ? resized : p));
  return { ...plan, pieces, stays: staysFor(board, job, plan, pieces) };
}

/**
 * The plan with the whole job shifted along with one of its blocks: the block goes to `wish`, all else that nobody has
 * begun keeps its place and its distance in time, later where its people or the place are not free. A car that is
 * not here yet comes as much earlier or later.
 */
export function shiftedJob(
  board: Board,
  job: JobSpec,
  plan: JobPlan,
  wish: MoveWish,
  known?: Occupancy,
): JobPlan | null {
  const first = plan.stays[0];
  const held = plan.pieces.find((p) => wish.stageIds.includes(p.stageId));
  if (!first || !held) return null;
  const by = wish.startMin - held.startMin;
  const arriveMin = job.start.kind === 'here' ? first.arriveMin : next(board.desk, first.arriveMin + by);
  const waiting = job.stages.filter((s) => s.state === 'planned');
  const kept = plan.pieces.filter((p) => !waiting.some((s) => s.id === p.stageId));
  const occupancy = known ?? occupancyOf(board, new Set([job.id]), board.nowMin);
  let place = job.start.kind === 'here' ? job.start.bayId : null;
  let free = job.start.kind === 'here' ? job.start.fromMin : arriveMin;
  let from = free;
  const pieces: Piece[] = [];
  for (const stage of waiting) {
    const isHeld = wish.stageIds.includes(stage.id);
    const personId = isHeld ? wish.personId : null;
    for (const part of personId ? [wholeOf(board, stage, plan)] : partsOf(board, stage, plan)) {
      const own = part.piece;
      if (!own) continue;
      const bayId = isHeld ? wish.bayId : own.bayId;
      const ready = Math.max(free + (bayId === place ? 0 : arrivalMin(board, bayId)), from);
      const startMin = Math.max(ready, own.startMin + by);
      const piece = laidFrom(board, occupancy, part, { bayId, startMin, personId });
      if (!piece) return null;
      pieces.push(piece);
      [place, free, from] = [bayId, piece.dwellEndMin, piece.dwellEndMin];
    }
    from += stage.leastGapMin;
  }
  const all = [...kept, ...pieces].sort((a, b) => a.startMin - b.startMin);
  const stays = [{ ...first, arriveMin }, ...plan.stays.slice(1)];
  return { jobId: job.id, pieces: all, stays: staysFor(board, job, { ...plan, stays }, all, occupancy) };
}
