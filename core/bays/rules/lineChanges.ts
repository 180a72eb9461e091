import type { JobId } from '#core/shared/ids.ts';
import type { Line, Node } from './network.ts';
import type { Crew } from './roster.ts';

export type LineChanges = {
  /** The planned starts of all pieces that differ, and of all before them in their lines, as they were and as they are, rising. */
  readonly minutes: readonly number[];
  /** Per line as it was: which it is now; −1 = it is gone. */
  readonly isNow: Int32Array;
  /** Per line as it is: which it was (−1 = it is new), and how many of its pieces are up to the last that differs. */
  readonly was: Int32Array;
  readonly differ: Int32Array;
};

/** In which lines of a board differ from those it had before, and how far; null where those that are the same stand in another order. */
export function lineChanges(before: readonly Line[], now: readonly Line[]): LineChanges | null {
  const known = new Map<JobId, number>(before.map((l, i) => [l.jobId, i]));
  const was = Int32Array.from(now, (l) => known.get(l.jobId) ?? -1);
  const alike = alikeCrews();
  const differ = Int32Array.from(now, (l, i) => differing(before[was[i] ?? -1], l, alike));
  if (!isRising(was.filter((_, i) => differ[i] === 0))) return null;
  const isNow = new Int32Array(before.length).fill(-1);
  was.forEach((at, i) => {
    if (at >= 0) isNow[at] = i;
  });
  strayAll(was, differ, now);
  const minutes = new Set<number>();
  now.forEach((line, i) => {
    addStarts(minutes, line, differ[i] ?? 0);
  });
  before.forEach((line, at) => {
    addStarts(minutes, line, differ[isNow[at] ?? -1] ?? line.nodes.length);
  });
  return { minutes: [...minutes].sort((a, b) => a - b), isNow, was, differ };
}

function isRising(values: Int32Array): boolean {
  return values.every((v, i) => i === 0 || v > (values[i - 1] ?? 0));
}

/** Which of two comes first matters also where they are as they were: a line that has changed places differs to its end. */
function strayAll(was: Int32Array, differ: Int32Array, now: readonly Line[]): void {
  let last = -1;
  for (let i = 0; i < was.length; i += 1) {
    const at = was[i] ?? -1;
    if (at < 0) continue;
    const next = was.find((w, k) => k > i && differ[k] === 0 && w >= 0) ?? Number.POSITIVE_INFINITY;
    if (differ[i] === 0 || (at > last && at < next)) last = at;
    else differ[i] = Math.max(differ[i] ?? 0, now[i]?.nodes.length ?? 0);
  }
}

function addStarts(to: Set<number>, { nodes }: Line, count: number): void {
  for (let k = 0; k < count && k < nodes.length; k += 1) to.add((nodes[k] as Node).startMin);
}

/** Whether a car's work is the same in all that a simulation hangs on. */
export function isSameLine(a: Line, b: Line): boolean {
  return differing(a, b, alikeCrews()) === 0 && sameNumbers(a.rank, b.rank);
}

/** How many pieces of a line are up to the last that differs: all of them where it has more or fewer than it had. */
function differing(was: Line | undefined, now: Line, alike: Alike): number {
  if (!was) return now.nodes.length;
  const [a, b] = [was.nodes, now.nodes];
  if (a.length !== b.length || was.number !== now.number) return Math.max(a.length, b.length);
  return b.findLastIndex((n, i) => !sameNode(a[i] as Node, n, alike)) + 1;
}

function sameNode(a: Node, b: Node, alike: Alike): boolean {
  return (
    a.startMin === b.startMin &&
    a.order === b.order &&
    a.share === b.share &&
    a.splittable === b.splittable &&
    a.running === b.running &&
    a.mu === b.mu &&
    a.shared === b.shared &&
    a.own === b.own &&
    a.workedMin === b.workedMin &&
    a.empty === b.empty &&
    a.dwellMin === b.dwellMin &&
    a.gapMin === b.gapMin &&
    a.enters === b.enters &&
    a.leaves === b.leaves &&
    a.settleMin === b.settleMin &&
    sameNumbers(a.bays, b.bays) &&
    alike(a.crews, b.crews)
  );
}

export function sameNumbers(a: ArrayLike<number>, b: ArrayLike<number>): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i += 1) if (a[i] !== b[i]) return false;
  return true;
}

type Alike = (a: readonly Crew[], b: readonly Crew[]) => boolean;

/** Whether two lists of crews are of the same people at the same pace, each pair of lists compared once. */
function alikeCrews(): Alike {
  const known = new Map<readonly Crew[], readonly Crew[]>();
  return (a, b) => {
    if (known.get(a) === b) return true;
    const same =
      a.length === b.length &&
      a.every((c, i) => c.pace === b[i]?.pace && sameNumbers(c.people, b[i]?.people ?? []));
    if (same) known.set(a, b);
    return same;
  };
}
