import type { BlockView, BoardView, LaneView } from '#core/shared/views/bays.ts';

/** One row of cars in the yard, px. */
export const YARD_PX = 24;

/** The cars of a lane in the order of their arrival. */
export function carsOf(board: BoardView, lane: LaneView): readonly BlockView[] {
  return board.blocks.filter((b) => b.bayId === lane.bayId).sort((a, b) => a.arriveMin - b.arriveMin);
}

/** Rows for cars that stand in the yard at the same time; `blocks` in the order of their arrival. */
export function rowsOf(blocks: readonly Pick<BlockView, 'arriveMin' | 'leaveMin'>[]): readonly number[] {
  const ends: number[] = [];
  return blocks.map((b) => {
    const free = ends.findIndex((end) => end <= b.arriveMin);
    const row = free === -1 ? ends.length : free;
    ends[row] = b.leaveMin;
    return row;
  });
}

/** How high a yard with so many rows of cars is, an empty one as with one. */
export function yardHeight(rows: readonly number[]): number {
  return Math.max(1, ...rows.map((r) => r + 1)) * YARD_PX + 8;
}
