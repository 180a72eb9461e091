import type { PadState } from '../../shared/views/stock.ts';

/** Pieces of one reusable item by state. */
export type PadCounts = {
  readonly clean: number;
  readonly dirty: number;
  readonly washing: number;
};

const NEXT: Readonly<Record<PadState, readonly PadState[]>> = {
  clean: ['dirty', 'retired'],
  dirty: ['washing', 'clean', 'retired', 'dirty'],
  washing: ['clean', 'dirty', 'retired'],
  retired: [],
};

/** Whether a piece may go from one state to another. Retired is for good; dirty to dirty is a use without a wash. */
export function mayGo(from: PadState, to: PadState): boolean {
  return NEXT[from].includes(to);
}

/** Uses of a piece when nobody said. Common practice, no source. */
export const DEFAULT_USES = 20;

/** Retirements that one default life counts for. Common practice, no source. */
export const PRIOR_RETIREMENTS = 4;

/**
 * Uses a piece lasts: uses of all pieces over retirements (constant chance of wearing out per use), pulled
 * towards the expected life by `PRIOR_RETIREMENTS` imagined pieces. Pieces still going count with their uses.
 * @source exposure over failures, the maximum-likelihood estimate for exponential lives with censoring
 * @example usesPerLife(20, 0, 0) //=> 20
 */
export function usesPerLife(expected: number, uses: number, retired: number): number {
  return (PRIOR_RETIREMENTS * expected + uses) / (PRIOR_RETIREMENTS + retired);
}

/** What one use of a piece costs, minor units: price over life. */
export function wearMinor(pieceMinor: number, life: number, uses: number): number {
  return Math.round((pieceMinor * uses) / life);
}

/** Clean pieces a job needs, in the order of the plan. `day` is an index, 0 = today. */
export type PadNeed = { readonly day: number; readonly jobId: string; readonly pieces: number };

export type Shortage = {
  readonly day: number;
  readonly jobId: string;
  readonly needs: number;
  readonly has: number;
  readonly washHelps: boolean;
};

/**
 * The first job that lacks clean pieces if nobody washes, and whether a wash tonight of everything dirty (clean
 * from `washDays` days on) is enough for that day. Pieces in the wash now are clean tomorrow.
 */
export function padShortage(
  counts: PadCounts,
  needs: readonly PadNeed[],
  life: number,
  washDays = 1,
): Shortage | null {
  const first = firstLack(counts.clean, counts, needs, life, false, washDays);
  if (!first) return null;
  const washed = firstLack(counts.clean, counts, needs, life, true, washDays);
  return { ...first, washHelps: washed === null || washed.day > first.day };
}

type Lack = Omit<Shortage, 'washHelps'>;

function firstLack(
  clean: number,
  counts: PadCounts,
  needs: readonly PadNeed[],
  life: number,
  wash: boolean,
  washDays: number,
): Lack | null {
  const back = new Map<number, number>([[1, counts.washing]]);
  if (wash) back.set(washDays, (back.get(washDays) ?? 0) + counts.dirty);
  let have = clean;
  let day = 0;
  for (const need of [...needs].sort((a, b) => a.day - b.day)) {
    for (; day < need.day; day += 1) have += back.get(day + 1) ?? 0;
    if (need.pieces > have + 1e-9) {
      return { day: need.day, jobId: need.jobId, needs: need.pieces, has: Math.floor(have + 1e-9) };
    }
    have -= need.pieces;
    const again = need.pieces * (1 - 1 / life);
    if (wash) back.set(need.day + washDays, (back.get(need.day + washDays) ?? 0) + again);
  }
  return null;
}

/** Pieces to buy so that, washed every night, no job lacks any: the largest lack over the horizon. */
export function piecesLacking(counts: PadCounts, needs: readonly PadNeed[], life: number): number {
  let extra = 0;
  for (let guard = 0; guard < 200; guard += 1) {
    const lack = firstLack(counts.clean + extra, counts, needs, life, true, 1);
    if (!lack) return extra;
    extra += Math.max(1, lack.needs - lack.has);
  }
  return extra;
}
