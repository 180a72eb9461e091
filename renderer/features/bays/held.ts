import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import type { EpochMin } from '#core/shared/units.ts';
import type { BlockView, BoardView, PieceView } from '#core/shared/views/bays.ts';

/** What is done with a block in hand: it moves, its whole job moves, a stage is cut in two, the end of its work drawn. */
export const HELD_MODES = ['block', 'whole', 'split', 'resize'] as const;
export type HeldMode = (typeof HELD_MODES)[number];

/** A block lifted off the board and where it is held now. */
export type Held = {
  readonly mode: HeldMode;
  readonly jobId: JobId;
  readonly who: string;
  readonly stageIds: readonly StageId[];
  readonly from: BlockView;
  readonly bayId: BayId;
  readonly startMin: EpochMin;
  readonly lengthMin: number;
  /** Somebody who is to do it instead, or the rest of it; null leaves whoever does it now. */
  readonly personId: PersonId | null;
  /** The work that is split or whose end is drawn, and the minute. */
  readonly piece: PieceView;
  readonly atMin: EpochMin;
};

/** Blocks move by quarters of an hour. */
export const QUARTER = 15;

/** A block taken in hand where it stands; null when nothing of it can move. */
export function liftedFrom(block: BlockView): Held | null {
  const open = block.pieces.filter((p) => p.state === 'planned');
  const [first, last] = [open[0], open.at(-1)];
  if (!first || !last) return null;
  return {
    mode: 'block',
    jobId: block.jobId,
    who: block.who,
    stageIds: [...new Set(open.map((p) => p.stageId))],
    from: block,
    bayId: block.bayId,
    startMin: first.startMin,
    lengthMin: last.dwellEndMin - first.startMin,
    personId: null,
    piece: last,
    atMin: last.endMin,
  };
}

/** The same block held for something else, from where it stands. */
export function heldFor(held: Held, mode: HeldMode): Held {
  const fresh = liftedFrom(held.from) ?? held;
  if (mode === 'block' || mode === 'whole') return { ...held, mode, piece: fresh.piece, atMin: fresh.atMin };
  if (mode === 'resize') {
    const last = lastAttended(held.from);
    return last ? { ...fresh, mode, piece: last, atMin: last.endMin } : held;
  }
  const piece = worthSplitting(held.from);
  if (!piece) return held;
  const atMin = quarterOf((piece.startMin + piece.endMin) / 2);
  return { ...fresh, mode, piece, atMin };
}

/** The last planned work that somebody does: its end can be drawn. A cure ends by its own clock. */
export function lastAttended(block: BlockView): PieceView | null {
  return block.pieces.findLast((p) => p.state === 'planned' && p.personIds.length > 0) ?? null;
}

/** The longest work of a block that may be shared; null when there is none. */
export function worthSplitting(block: BlockView): PieceView | null {
  const [longest] = block.pieces
    .filter((p) => p.state === 'planned' && p.splittable)
    .sort((a, b) => b.endMin - b.startMin - (a.endMin - a.startMin));
  return longest ?? null;
}

/** The open work at a minute, so that a press on a stage splits that one; null beside them. */
export function pieceAt(block: BlockView, t: number): PieceView | null {
  return (
    block.pieces.find((p) => p.state === 'planned' && p.splittable && p.startMin < t && t < p.endMin) ?? null
  );
}

export function quarterOf(t: number): EpochMin {
  return (Math.round(t / QUARTER) * QUARTER) as EpochMin;
}

/** No end and no cut lies before its work begins. */
export function afterStart(piece: PieceView, t: number): EpochMin {
  return Math.max(piece.startMin + 1, t) as EpochMin;
}

type Row = { readonly bayId: BayId; readonly personId: PersonId | null };

/** The block a few quarters of an hour and a few rows on. */
export function stepped(board: BoardView, held: Held, quarters: number, rows: number): Held {
  if (held.mode === 'split' || held.mode === 'resize') {
    const atMin = afterStart(held.piece, held.atMin + quarters * QUARTER);
    return { ...held, atMin, personId: held.mode === 'split' ? personBeside(board, held, rows) : null };
  }
  const row = rowBeside(board, held, rows);
  return { ...held, ...row, startMin: steppedTo(board, held.startMin, quarters) as EpochMin };
}

/** The row above or below: the bays, the yard, and then the people, who take the work where it is. */
function rowBeside(board: BoardView, held: Held, rows: number): Row {
  const { bayId, personId } = held;
  const all: readonly Row[] = [
    ...board.lanes.map((l) => ({ bayId: l.bayId, personId: null })),
    ...board.people.map((p) => ({ bayId: personId ? bayId : held.from.bayId, personId: p.personId })),
  ];
  const at = all.findIndex((r) => (personId ? r.personId === personId : r.bayId === bayId));
  return all[Math.min(all.length - 1, Math.max(0, at + rows))] ?? { bayId, personId };
}

/** Who takes the rest of a stage: whoever has it, or the next person up or down the list. */
function personBeside(board: BoardView, held: Held, rows: number): PersonId | null {
  const all = [null, ...board.people.map((p) => p.personId)];
  const at = all.indexOf(held.personId);
  return all[Math.min(all.length - 1, Math.max(0, at + rows))] ?? null;
}

/** A quarter of an hour on, jumping over closed hours. */
function steppedTo(board: BoardView, from: number, quarters: number): number {
  const to = from + quarters * QUARTER;
  if (quarters === 0 || board.open.some((o) => o.startMin <= to && to < o.endMin)) return to;
  if (quarters > 0) return board.open.find((o) => o.startMin >= to)?.startMin ?? to;
  return (board.open.findLast((o) => o.endMin <= to)?.endMin ?? to + QUARTER) - QUARTER;
}

/** The other car whose work is where the block is held: the one to swap with. */
export function swapTarget(board: BoardView, held: Held): BlockView | null {
  if (held.mode !== 'block') return null;
  const end = held.startMin + held.lengthMin;
  const others = board.blocks.filter(
    (b) =>
      b.bayId === held.bayId && b.jobId !== held.jobId && b.arriveMin < end && b.leaveMin > held.startMin,
  );
  return others.find((b) => b.pieces.some((p) => p.state === 'planned')) ?? null;
}
