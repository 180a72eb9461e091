import { type Calendar, lastAtOrBelow } from './calendar.ts';
import type { Line, Network, Node } from './network.ts';
import { type Intervals, intervalsOf } from './walk.ts';

/**
 * A network as columns of numbers, since a simulation goes through it hundreds of times: row n is the n-th piece of all,
 * line after line. Hours of the shop and of all crews stand in one list of intervals.
 */
export type Columns = {
  /** Where each line's pieces begin; the last line's end after them. */
  readonly pieceFrom: Int32Array;
  /** The planned start of the first piece of each line, rising. */
  readonly firstMin: Float64Array;
  readonly startMin: Float64Array;
  readonly settleMin: Float64Array;
  readonly dwellMin: Float64Array;
  readonly gapMin: Float64Array;
  readonly splittable: Uint8Array;
  readonly running: Uint8Array;
  readonly enters: Uint8Array;
  readonly leaves: Uint8Array;
  /** Where each piece's bays begin in `bays`, where its crews begin in the columns of the crews; as `pieceFrom`. */
  readonly bayFrom: Int32Array;
  readonly bays: Int32Array;
  readonly crewFrom: Int32Array;
  /** The people of a crew; of one that works alone they are the same. */
  readonly one: Int32Array;
  readonly two: Int32Array;
  readonly pace: Float64Array;
  /** Intervals at the planned start: of the crew's hours, and of the shop's opening for each piece. */
  readonly hoursAt: Int32Array;
  readonly openAt: Int32Array;
  readonly hours: Intervals;
};

export function columnsOf({ lines, open }: Network): Columns {
  const nodes = lines.flatMap((l) => l.nodes);
  const crews = nodes.flatMap((n) => n.crews);
  const hours = intervalsOf(new Set([open, ...crews.map((c) => c.hours)]));
  const at = (cal: Calendar, interval: number): number => (hours.firstOf.get(cal) ?? 0) + interval;
  const hoursAt = (n: Node): number[] => n.crews.map((c) => at(c.hours, intervalAt(c.hours, n.startMin)));
  return {
    pieceFrom: offsets(lines.map((l) => l.nodes.length)),
    firstMin: floats(lines, firstOf),
    ...plainColumns(nodes),
    bayFrom: offsets(nodes.map((n) => n.bays.length)),
    bays: Int32Array.from(nodes.flatMap((n) => n.bays)),
    crewFrom: offsets(nodes.map((n) => n.crews.length)),
    one: integers(crews, (c) => c.people[0] ?? 0),
    two: integers(crews, (c) => c.people[1] ?? c.people[0] ?? 0),
    pace: floats(crews, (c) => c.pace),
    hoursAt: Int32Array.from(nodes.flatMap(hoursAt)),
    openAt: integers(nodes, (n) => at(open, intervalAt(open, n.startMin))),
    hours,
  };
}

function plainColumns(nodes: readonly Node[]) {
  return {
    startMin: floats(nodes, (n) => n.startMin),
    settleMin: floats(nodes, (n) => n.settleMin),
    dwellMin: floats(nodes, (n) => n.dwellMin),
    gapMin: floats(nodes, (n) => n.gapMin),
    splittable: flags(nodes, (n) => n.splittable),
    running: flags(nodes, (n) => n.running),
    enters: flags(nodes, (n) => n.enters),
    leaves: flags(nodes, (n) => n.leaves),
  };
}

/** The interval of a calendar at a minute, or the last one before it; the first where there is none. */
function intervalAt(cal: Calendar, minute: number): number {
  return Math.max(0, lastAtOrBelow(cal.starts, minute));
}

export function firstOf(line: Line): number {
  return line.nodes[0]?.startMin ?? 0;
}

/** Where each of several lists begins when they stand one after the other, and where the last one ends. */
function offsets(lengths: readonly number[]): Int32Array {
  const from = new Int32Array(lengths.length + 1);
  lengths.forEach((length, i) => {
    from[i + 1] = (from[i] ?? 0) + length;
  });
  return from;
}

// Written out: the arrays' own `from` takes several times as long, and every board is put into columns anew.

function floats<T>(rows: readonly T[], of: (row: T) => number): Float64Array {
  const column = new Float64Array(rows.length);
  for (let i = 0; i < rows.length; i += 1) column[i] = of(rows[i] as T);
  return column;
}

function integers<T>(rows: readonly T[], of: (row: T) => number): Int32Array {
  const column = new Int32Array(rows.length);
  for (let i = 0; i < rows.length; i += 1) column[i] = of(rows[i] as T);
  return column;
}

function flags<T>(rows: readonly T[], of: (row: T) => boolean): Uint8Array {
  const column = new Uint8Array(rows.length);
  for (let i = 0; i < rows.length; i += 1) column[i] = of(rows[i] as T) ? 1 : 0;
  return column;
}
