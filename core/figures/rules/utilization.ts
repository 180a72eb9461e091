import type { UtilizationParts } from '#core/shared/views/figures.ts';

/** Half-open stretch in whole minutes since the epoch. */
export type Stretch = { readonly startMin: number; readonly endMin: number };

export type PlaceRecord = {
  /** Minutes that were there to be used: open hours of a place less closures, the shift of a person less absences. */
  readonly open: readonly Stretch[];
  readonly attended: readonly Stretch[];
  readonly cure: readonly Stretch[];
  /** A car stands there, whatever happens to it. */
  readonly occupied: readonly Stretch[];
  /** A car stands there with nothing left to do in this place. */
  readonly blocked: readonly Stretch[];
};

type Part = keyof Omit<UtilizationParts, 'availableMin'>;
/** The order of claim, first match counts: work on a car while another coat cures beside it is attended time. */
const LISTS = ['attended', 'cure', 'blocked', 'occupied', 'open'] as const;
const PARTS: readonly Part[] = ['attendedMin', 'cureMin', 'blockedMin', 'waitingMin', 'idleMin'];
const OPEN = LISTS.indexOf('open');
/** An instant and what changes at it in one number, so that a plain sort of numbers puts them in order of time. */
const CODES = 16;

/**
 * Splits the open minutes of a place in `[fromMin, toMin)` into five parts that sum to them to the minute.
 * Work outside the open minutes is not counted: it is overtime, not utilization of what was available.
 */
export function utilizationOf(record: PlaceRecord, fromMin: number, toMin: number): UtilizationParts {
  return hoursByCell(record, [fromMin, toMin])[0] ?? NOTHING;
}

/**
 * The same for each cell between two neighbours of `edges` (rising, at least one): `edges.length - 1` parts in one walk,
 * O(n log n) in the stretches. A stretch over an edge is cut there, so cells of any size add up to each other.
 */
export function hoursByCell(record: PlaceRecord, edges: readonly number[]): readonly UtilizationParts[] {
  const cells = edges.slice(1).map(() => ({ ...NOTHING }));
  const depth = new Int32Array(LISTS.length);
  let at = edges[0] ?? 0;
  let cell = 0;
  for (const code of changes(record, edges)) {
    const minute = Math.floor(code / CODES);
    const what = code - minute * CODES;
    const into = cells[cell];
    if (into && minute > at && (depth[OPEN] ?? 0) > 0) {
      into.availableMin += minute - at;
      into[PARTS[claimant(depth)] ?? 'idleMin'] += minute - at;
    }
    at = Math.max(at, minute);
    if (what >= EDGE) cell += 1;
    else depth[what >> 1] = (depth[what >> 1] ?? 0) + (what % 2 === 0 ? -1 : 1);
  }
  return cells;
}

/** The first list that covers the moment; the open hours cover it all. */
function claimant(depth: Int32Array): number {
  let i = 0;
  while (i < OPEN && (depth[i] ?? 0) <= 0) i += 1;
  return i;
}

const NOTHING = { availableMin: 0, attendedMin: 0, cureMin: 0, waitingMin: 0, blockedMin: 0, idleMin: 0 };
const EDGE = LISTS.length * 2;

/** Every beginning, end and edge within the edges, in order of time: minute · 16 + list · 2 + (1 = begins). */
function changes(record: PlaceRecord, edges: readonly number[]): Float64Array {
  const [fromMin, toMin] = [edges[0] ?? 0, edges.at(-1) ?? 0];
  const most = LISTS.reduce((sum, name) => sum + 2 * record[name].length, edges.length);
  const codes = new Float64Array(most);
  let n = 0;
  for (let i = 1; i < edges.length; i += 1) codes[n++] = (edges[i] ?? 0) * CODES + EDGE;
  for (const [i, name] of LISTS.entries())
    for (const { startMin, endMin } of record[name]) {
      if (endMin <= startMin || startMin >= toMin || endMin <= fromMin) continue;
      codes[n++] = Math.max(startMin, fromMin) * CODES + i * 2 + 1;
      codes[n++] = Math.min(endMin, toMin) * CODES + i * 2;
    }
  return codes.subarray(0, n).sort();
}

type Adding = { -readonly [K in keyof UtilizationParts]: UtilizationParts[K] };

export function noParts(): Adding {
  return { ...NOTHING };
}

export function addParts(sum: Adding, parts: UtilizationParts): void {
  for (const key of Object.keys(NOTHING) as (keyof UtilizationParts)[]) sum[key] += parts[key];
}

/** Adds parts of several places or days. */
export function sumParts(all: readonly UtilizationParts[]): UtilizationParts {
  const sum = noParts();
  for (const parts of all) addParts(sum, parts);
  return sum;
}
