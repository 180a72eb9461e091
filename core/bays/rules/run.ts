import type { Columns } from './columns.ts';
import type { Network } from './network.ts';

/**
 * One way a day may go: whatever can be begun first is begun first, the earlier planned of two. Nobody starts before
 * the plan says so, which errs on the safe side. A car goes into another bay of the kind when its own is not free yet,
 * and somebody else who can do it takes over from who would keep it waiting. A car that is done with its bay does not
 * block it. Starts never go back in time, so people and bays are simply free from some minute on.
 */
export type Run = {
  readonly columns: Columns;
  /** Minutes of each piece in all runs, and which run this is. */
  readonly drawn: readonly Float64Array[];
  turn: number;
  /** Per line: its next piece, when its car is free (−NEVER: has not come), the bay it holds (−1 = none). */
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
  /** When each bay is first free. */
  readonly bayFirst: Float64Array;
  /** Per bay: how many cars hold it, and since when it is free. */
  readonly held: Int32Array;
  readonly bayFree: Float64Array;
  /** Lines that were looked at and are not over, rising: the first `count` of these. */
  readonly live: Int32Array;
  count: number;
  /** Lines from here on were not looked at yet. */
  reach: number;
  /** What is begun next, and where it stands among the live ones. */
  line: number;
  at: number;
};

export function emptyRun(columns: Columns, network: Network, drawn: readonly Float64Array[]): Run {
  const { peopleCount, bayFrom: bayFirst } = network;
  const lines = columns.firstMin.length;
  const whole = (): Int32Array => new Int32Array(lines);
  const times = (): Float64Array => new Float64Array(lines);
  return {
    columns,
    drawn,
    turn: 0,
    ...{ next: whole(), free: times(), bay: whole() },
    ...{ least: times(), start: times(), known: new Uint8Array(lines) },
    ...{ crew: whole(), into: whole() },
    peopleFree: new Float64Array(peopleCount),
    bayFirst: Float64Array.from(bayFirst),
    held: new Int32Array(bayFirst.length),
    bayFree: new Float64Array(bayFirst.length),
    ...{ live: whole(), count: 0, reach: 0, line: -1, at: -1 },
  };
}
