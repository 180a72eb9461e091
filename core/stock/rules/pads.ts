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

/** Days a wash takes, and until what is in it now is clean. Overnight: 1 and 1. */
export type Wash = { readonly days: number; readonly back: number };
export const OVERNIGHT: Wash = { days: 1, back: 1 };

/**
 * Whole days until what is in the wash is clean, the last of it put in `since` days ago; tomorrow at the soonest, since
 * nobody has taken it out yet.
 */
export function backIn(days: number, since: number): number {
  return Math.max(1, days - Math.max(0, since));
}

/**
 * The first job that lacks clean pieces if nobody washes, and whether a wash tonight of everything dirty is enough for
 * that day.
 */
export function padShortage(
  counts: PadCounts,
  needs: readonly PadNeed[],
  life: number,
  wash = OVERNIGHT,
): Shortage | null {
  const first = firstLack(counts, needs, life, { ...wash, isDone: false });
  if (!first) return null;
  const washed = firstLack(counts, needs, life, { ...wash, isDone: true });
  return { ...first, washHelps: washed === null || washed.day > first.day };
}

type Lack = Omit<Shortage, 'washHelps'>;

function firstLack(
  counts: PadCounts,
  needs: readonly PadNeed[],
  life: number,
  wash: Wash & { readonly isDone: boolean },
): Lack | null {
  const back = new Map<number, number>([[wash.back, counts.washing]]);
  if (wash.isDone) back.set(wash.days, (back.get(wash.days) ?? 0) + counts.dirty);
  let have = counts.clean;
  let day = 0;
  for (const need of [...needs].sort((a, b) => a.day - b.day)) {
    for (; day < need.day; day += 1) have += back.get(day + 1) ?? 0;
    if (need.pieces > have + 1e-9) {
      return { day: need.day, jobId: need.jobId, needs: need.pieces, has: Math.floor(have + 1e-9) };
    }
    have -= need.pieces;
    const again = need.pieces * (1 - 1 / life);
    const at = need.day + wash.days;
    if (wash.isDone) back.set(at, (back.get(at) ?? 0) + again);
  }
  return null;
}

/** Pieces to buy so that, washed every night, no job lacks any: the largest lack over the horizon. */
export function piecesLacking(
  counts: PadCounts,
  needs: readonly PadNeed[],
  life: number,
  wash = OVERNIGHT,
): number {
  let extra = 0;
  for (let guard = 0; guard < 200; guard += 1) {
    const more = { ...counts, clean: counts.clean + extra };
    const lack = firstLack(more, needs, life, { ...wash, isDone: true });
    if (!lack) return extra;
    extra += Math.max(1, lack.needs - lack.has);
  }
  return extra;
}
