import type { BlockView } from '#core/shared/views/bays.ts';

type Standing = Pick<BlockView, 'state' | 'arriveMin' | 'leaveMin'>;
/** Where in its lane a car is drawn: in which of how many rows. */
export type LaneRow = { readonly row: number; readonly rows: number };
const WHOLE: LaneRow = { row: 0, rows: 1 };

/** The plan has the car here by now, and it has not come. */
export function isAwaited(block: Standing, nowMin: number): boolean {
  return block.state === 'booked' && block.arriveMin <= nowMin;
}

/**
 * Rows for the cars of a place that holds one. Cars that cannot be there together, from now on or because one of them
 * has not come, lie in rows of their own, what is there above what is only planned; every other car has the whole lane.
 */
export function laneRows(blocks: readonly Standing[], nowMin: number): readonly LaneRow[] {
  const rows: LaneRow[] = blocks.map(() => WHOLE);
  for (const cluster of clustersOf(blocks, nowMin)) {
    const order = cluster.toSorted((a, b) => rank(blocks[a]) - rank(blocks[b]) || a - b);
    const taken: number[][] = [];
    for (const at of order) {
      const free = taken.findIndex((row) => row.every((other) => !overlap(blocks[at], blocks[other])));
      const row = free === -1 ? taken.length : free;
      taken[row] = [...(taken[row] ?? []), at];
    }
    taken.forEach((row, i) => {
      for (const at of row) rows[at] = { row: i, rows: taken.length };
    });
  }
  return rows;
}

/** Cars that hang together by clashes, each group once; no group of one. */
function clustersOf(blocks: readonly Standing[], nowMin: number): readonly (readonly number[])[] {
  const groups: number[][] = [];
  blocks.forEach((block, at) => {
    const near = groups.filter((g) => g.some((other) => clash(block, blocks[other], nowMin)));
    for (const group of near) groups.splice(groups.indexOf(group), 1);
    groups.push([...near.flat(), at]);
  });
  return groups.filter((g) => g.length > 1);
}

function clash(a: Standing, b: Standing | undefined, nowMin: number): boolean {
  if (!b || !overlap(a, b)) return false;
  return Math.min(a.leaveMin, b.leaveMin) > nowMin || isAwaited(a, nowMin) || isAwaited(b, nowMin);
}

function overlap(a: Standing | undefined, b: Standing | undefined): boolean {
  return a !== undefined && b !== undefined && a.arriveMin < b.leaveMin && b.arriveMin < a.leaveMin;
}

function rank(block: Standing | undefined): number {
  return block?.state === 'booked' ? 1 : 0;
}
