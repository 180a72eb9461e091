import type { UtilizationParts } from '#core/shared/views/figures.ts';

/** Half-open stretch in whole minutes since the epoch. */
export type Stretch = { readonly startMin: number; readonly endMin: number };

export type PlaceRecord = {
  /** Open minutes of the place less closures, sorted and disjoint. */
  readonly open: readonly Stretch[];
  readonly attended: readonly Stretch[];
  readonly cure: readonly Stretch[];
  /** A car stands there, whatever happens to it. */
  readonly occupied: readonly Stretch[];
  /** A car stands there with nothing left to do in this place. */
  readonly blocked: readonly Stretch[];
};

type Part = keyof Omit<UtilizationParts, 'availableMin'>;
/** First match counts: work on a car while another coat cures beside it is attended time. */
const ORDER: readonly { readonly part: Part; readonly from: keyof PlaceRecord }[] = [
  { part: 'attendedMin', from: 'attended' },
  { part: 'cureMin', from: 'cure' },
  { part: 'blockedMin', from: 'blocked' },
  { part: 'waitingMin', from: 'occupied' },
];

/**
 * Splits the open minutes of a place in `[fromMin, toMin)` into five parts that sum to them to the minute.
 * Work outside the open minutes is not counted: it is overtime, not utilization of what was available.
 */
export function utilizationOf(record: PlaceRecord, fromMin: number, toMin: number): UtilizationParts {
  const parts = { availableMin: 0, attendedMin: 0, cureMin: 0, waitingMin: 0, blockedMin: 0, idleMin: 0 };
  const cuts = cutsOf(record, fromMin, toMin);
  for (let i = 0; i + 1 < cuts.length; i += 1) {
    const at = cuts[i] ?? 0;
    const minutes = (cuts[i + 1] ?? at) - at;
    if (!covers(record.open, at)) continue;
    parts.availableMin += minutes;
    const part = ORDER.find(({ from }) => covers(record[from], at))?.part ?? 'idleMin';
    parts[part] += minutes;
  }
  return parts;
}

/** Adds parts of several places or days. */
export function sumParts(all: readonly UtilizationParts[]): UtilizationParts {
  const sum = { availableMin: 0, attendedMin: 0, cureMin: 0, waitingMin: 0, blockedMin: 0, idleMin: 0 };
  for (const parts of all)
    for (const key of Object.keys(sum) as (keyof UtilizationParts)[]) sum[key] += parts[key];
  return sum;
}

function cutsOf(record: PlaceRecord, fromMin: number, toMin: number): number[] {
  const cuts = new Set([fromMin, toMin]);
  for (const list of Object.values(record)) {
    for (const { startMin, endMin } of list) {
      if (startMin > fromMin && startMin < toMin) cuts.add(startMin);
      if (endMin > fromMin && endMin < toMin) cuts.add(endMin);
    }
  }
  return [...cuts].sort((a, b) => a - b);
}

function covers(list: readonly Stretch[], minute: number): boolean {
  return list.some((s) => s.startMin <= minute && minute < s.endMin);
}
