import type { Columns } from './columns.ts';
import type { Draws } from './draws.ts';

/**
 * One way a day may go: whatever can be begun first is begun first, the earlier planned of two. Nobody starts before
 * the plan says so, which errs on the safe side. A car goes into another bay of the kind when its own is not free yet,
 * and somebody else who can do it takes over from who would keep it waiting. A car that is done with its bay does not
 * block it. Starts never go back in time, so people and bays are simply free from some minute on.
 */
export type Run = {
  readonly columns: Columns;
  /** Lines in planned order. */
  readonly sequence: Int32Array;
  /** Minutes of each line's pieces in all runs, those of one run side by side; and which run this is. */
  readonly drawn: Float64Array[];
  readonly draws: Draws;
  turn: number;
  /**
   * Per line that was looked at: its next piece, when its car is free (−NEVER: has not come), the bay it holds (−1 = none).
   */
  readonly next: Int32Array;
  readonly free: Float64Array;
  readonly bay: Int32Array;
  /** Per line: before this it cannot begin, whatever bay and whoever it gets (NEVER = it is over). */
  readonly least: Float64Array;
  /** Per line: when it could begin, if `known`; else the least minute of it. NEVER while it has no bay, or is over. */
  readonly start: Float64Array;
  readonly known: Uint8Array;
  /** Per line, kept while it is known: by which crew it could begin (−1 = nobody attends), into which bay. */
  readonly crew: Int32Array;
  readonly into: Int32Array;
  readonly peopleFree: Float64Array;
  /** When each bay is first free, and how many cars hold it at first. */
  readonly bayFirst: Float64Array;
  readonly heldFirst: Int32Array;
  /** Per bay: how many cars hold it, and since when it is free. */
  readonly held: Int32Array;
  readonly bayFree: Float64Array;
  /** Lines that were looked at and are not over, in planned order: the first `count` of these. */
  readonly live: Int32Array;
  count: number;
  /** Lines from here on in the sequence were not looked at yet. */
  reach: number;
  /** What is begun next, and where it stands among the live ones. */
  line: number;
  at: number;
};

/** What is played, and on what: lines, their order, how their minutes are drawn, how many people, when bays are first free. */
export type Course = {
  readonly columns: Columns;
  readonly sequence: Int32Array;
  readonly draws: Draws;
  readonly peopleCount: number;
  readonly bayFirst: Float64Array;
};

export function emptyRun({ columns, sequence, draws, peopleCount, bayFirst }: Course): Run {
  const lines = sequence.length;
  const whole = (): Int32Array => new Int32Array(lines);
  const times = (): Float64Array => new Float64Array(lines);
  const bays = bayFirst.length;
  return {
    columns,
    sequence,
    draws,
    turn: 0,
    drawn: Array.from({ length: lines }, () => NOT_DRAWN),
    next: whole(),
    free: times(),
    bay: whole(),
    least: times(),
    start: times(),
    known: new Uint8Array(lines),
    crew: whole(),
    into: whole(),
    peopleFree: new Float64Array(peopleCount),
    bayFirst,
    heldFirst: heldAtFirst(columns, bays),
    held: new Int32Array(bays),
    bayFree: new Float64Array(bays),
    live: whole(),
    count: 0,
    reach: 0,
    line: -1,
    at: -1,
  };
}
/** Of a line that was not looked at. */
export const NOT_DRAWN = new Float64Array(0);

function heldAtFirst({ standsIn }: Columns, bays: number): Int32Array {
  const held = new Int32Array(bays);
  for (const bay of standsIn) if (bay >= 0) held[bay] = (held[bay] ?? 0) + 1;
  return held;
}

/** Lines that stand in planned order already. */
export function inOrder(lines: number): Int32Array {
  return Int32Array.from({ length: lines }, (_, i) => i);
}
