import type { Calendar } from './calendar.ts';
import type { Line, Node } from './network.ts';
import type { Crew } from './roster.ts';
import { type Intervals, intervalsOf } from './walk.ts';

/**
 * Lines as columns of numbers, since a simulation goes through them hundreds of times: row n is the n-th piece of all,
 * line after line. Bays and crews that several pieces have in common stand there once.
 */
export type Columns = {
  /** Where each line's pieces begin; the last line's end after them. */
  readonly pieceFrom: Int32Array;
  /** The planned start of the first piece of each line. */
  readonly firstMin: Float64Array;
  /** The bay that the car of a line stands in before its first piece, −1 = in none of them. */
  readonly standsIn: Int32Array;
  readonly startMin: Float64Array;
  readonly settleMin: Float64Array;
  readonly dwellMin: Float64Array;
  readonly gapMin: Float64Array;
  readonly splittable: Uint8Array;
  readonly running: Uint8Array;
  readonly enters: Uint8Array;
  readonly leaves: Uint8Array;
  /** Where each piece's bays begin and end in `bays`, its crews in the columns of the crews. */
  readonly bayFrom: Int32Array;
  readonly bayTo: Int32Array;
  /** A bit for each of a piece's bays, the 33rd that of the first again. */
  readonly bayBits: Int32Array;
  readonly crewFrom: Int32Array;
  readonly crewTo: Int32Array;
  readonly bays: Int32Array;
  /** The people of a crew; of one that works alone they are the same. */
  readonly one: Int32Array;
  readonly two: Int32Array;
  readonly pace: Float64Array;
  /** The calendar of a crew. */
  readonly works: Int32Array;
  /** The calendar of the shop's opening. */
  readonly open: number;
  readonly hours: Intervals;
  /** The longest that a car takes to be moved and to settle. */
  readonly mostSettleMin: number;
  /** What the columns were made of, to put another line to them. */
  readonly lists: Lists;
};
type Lists = {
  readonly lines: readonly Line[];
  readonly openHours: Calendar;
  readonly crews: Shared<Crew>;
  readonly bays: Shared<number>;
};

/** Lists that stand one after the other, each once however often it is asked for, and where each begins. */
type Shared<T> = { readonly all: readonly T[]; readonly at: ReadonlyMap<readonly T[], number> };

export function columnsOf(lines: readonly Line[], open: Calendar): Columns {
  const none = { all: [], at: new Map() };
  return built({ lines, openHours: open, crews: none, bays: none }, lines, null);
}

/** The columns with one more line as the last. */
export function withLine(columns: Columns, line: Line): Columns {
  const { lists } = columns;
  return built({ ...lists, lines: [...lists.lines, line] }, [line], columns);
}

function built(before: Lists, added: readonly Line[], to: Columns | null): Columns {
  const nodes = added.flatMap((l) => l.nodes);
  const crews = withLists(before.crews, nodes, (n) => n.crews);
  const bays = withLists(before.bays, nodes, (n) => n.bays);
  const hours = hoursOf(before.openHours, crews.all, to?.hours ?? null);
  const number = (cal: Calendar): number => hours.numberOf.get(cal) ?? 0;
  const fresh = rowsOf(nodes, crews, bays);
  const rows = to ? joined(to, fresh) : fresh;
  return {
    startMin: rows.startMin,
    settleMin: rows.settleMin,
    dwellMin: rows.dwellMin,
    gapMin: rows.gapMin,
    splittable: rows.splittable,
    running: rows.running,
    enters: rows.enters,
    leaves: rows.leaves,
    bayFrom: rows.bayFrom,
    bayTo: rows.bayTo,
    bayBits: rows.bayBits,
    crewFrom: rows.crewFrom,
    crewTo: rows.crewTo,
    pieceFrom: offsets(before.lines),
    firstMin: floats(before.lines, firstOf),
    standsIn: integers(before.lines, standsIn),
    bays: Int32Array.from(bays.all),
    one: integers(crews.all, (c) => c.people[0] ?? 0),
    two: integers(crews.all, (c) => c.people[1] ?? c.people[0] ?? 0),
    pace: floats(crews.all, (c) => c.pace),
    works: integers(crews.all, (c) => number(c.hours)),
    open: number(before.openHours),
    hours,
    mostSettleMin: rows.settleMin.reduce((a, b) => Math.max(a, b), 0),
    lists: { ...before, crews, bays },
  };
}

function withLists<T>(
  { all, at }: Shared<T>,
  nodes: readonly Node[],
  of: (n: Node) => readonly T[],
): Shared<T> {
  const [more, places] = [[...all], new Map(at)];
  for (const node of nodes) {
    const list = of(node);
    if (places.has(list)) continue;
    places.set(list, more.length);
    more.push(...list);
  }
  return { all: more, at: places };
}

/** Calendars keep their numbers when others join them. */
function hoursOf(open: Calendar, crews: readonly Crew[], before: Intervals | null): Intervals {
  const all = new Set([...(before?.numberOf.keys() ?? []), open, ...crews.map((c) => c.hours)]);
  return before && all.size === before.numberOf.size ? before : intervalsOf(all);
}

type Rows = ReturnType<typeof rowsOf>;

function rowsOf(nodes: readonly Node[], crews: Shared<Crew>, bays: Shared<number>) {
  return {
    startMin: floats(nodes, (n) => n.startMin),
    settleMin: floats(nodes, (n) => n.settleMin),
    dwellMin: floats(nodes, (n) => n.dwellMin),
    gapMin: floats(nodes, (n) => n.gapMin),
    splittable: flags(nodes, (n) => n.splittable),
    running: flags(nodes, (n) => n.running),
    enters: flags(nodes, (n) => n.enters),
    leaves: flags(nodes, (n) => n.leaves),
    bayFrom: integers(nodes, (n) => bays.at.get(n.bays) ?? 0),
    bayTo: integers(nodes, (n) => (bays.at.get(n.bays) ?? 0) + n.bays.length),
    bayBits: integers(nodes, (n) => n.bays.reduce((bits, b) => bits | (1 << (b & 31)), 0)),
    crewFrom: integers(nodes, (n) => crews.at.get(n.crews) ?? 0),
    crewTo: integers(nodes, (n) => (crews.at.get(n.crews) ?? 0) + n.crews.length),
  };
}

function joined(a: Rows, b: Rows): Rows {
  return {
    startMin: appended(a.startMin, b.startMin),
    settleMin: appended(a.settleMin, b.settleMin),
    dwellMin: appended(a.dwellMin, b.dwellMin),
    gapMin: appended(a.gapMin, b.gapMin),
    splittable: appended(a.splittable, b.splittable),
    running: appended(a.running, b.running),
    enters: appended(a.enters, b.enters),
    leaves: appended(a.leaves, b.leaves),
    bayFrom: appended(a.bayFrom, b.bayFrom),
    bayTo: appended(a.bayTo, b.bayTo),
    bayBits: appended(a.bayBits, b.bayBits),
    crewFrom: appended(a.crewFrom, b.crewFrom),
    crewTo: appended(a.crewTo, b.crewTo),
  };
}

function appended<T extends Float64Array | Int32Array | Uint8Array>(a: T, b: T): T {
  const both = new (a.constructor as new (length: number) => T)(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
}

export function firstOf(line: Line): number {
  return line.nodes[0]?.startMin ?? 0;
}

/** A car that need not enter the place of its first piece stands in it already. */
function standsIn({ nodes: [first] }: Line): number {
  return first && !first.enters ? (first.bays[0] ?? -1) : -1;
}

/** Where the pieces of each line begin when they stand one after the other, and where the last one's end. */
function offsets(lines: readonly Line[]): Int32Array {
  const from = new Int32Array(lines.length + 1);
  lines.forEach((line, i) => {
    from[i + 1] = (from[i] ?? 0) + line.nodes.length;
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
