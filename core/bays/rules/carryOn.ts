import { type Before, goesOnAt } from './backAt.ts';
import type { Run } from './run.ts';
import { begunOf, indexIn, oldName, put, type Stand, widen } from './stands.ts';

/**
 * Makes several stands, at the first of which a run is back, those of this run: lines that go on as they did get their new
 * numbers, all others that differ wait for their next piece meanwhile, and who was free since another minute is, up to when
 * that is over.
 */
export function carryOn(run: Run, stands: readonly Stand[], before: Before): void {
  const [first] = stands;
  if (!first) return;
  const { turn, count, live, columns } = run;
  carryTimes(run.peopleFree, stands, turn, (s) => s.peopleFree);
  carryTimes(run.bayFree, stands, turn, (s) => s.bayFree);
  const waiting: number[] = [];
  for (let k = 0; k < count; k += 1) {
    const line = live[k] ?? 0;
    if ((columns.firstMin[line] ?? 0) >= first.untilMin) break;
    if (before.differ[line] === 0) carryFree(run, stands, line, line);
    else if (goesOnAt(first, run, before, line) >= 0)
      carryFree(run, stands, line, oldName(before.was[line] ?? 0));
    else waiting.push(line);
  }
  for (const stand of stands) {
    takeOutGone(stand, turn);
    for (const line of waiting) putIn(stand, run, line);
  }
}

/** What somebody or a bay does next ends later than both, so that it is the old minute as long as they do nothing. */
function carryTimes(
  now: Float64Array,
  stands: readonly Stand[],
  turn: number,
  of: (stand: Stand) => Float64Array,
): void {
  for (let i = 0; i < now.length; i += 1) {
    const at = turn * now.length + i;
    const [old, is] = [of(stands[0] as Stand)[at] ?? 0, now[i] ?? 0];
    if (old === is) continue;
    for (const stand of stands) {
      const times = of(stand);
      if (times[at] !== old) break;
      times[at] = is;
    }
  }
}

/** Gives a line its number, and when its car is free as long as it has begun no more. */
function carryFree(run: Run, stands: readonly Stand[], line: number, name: number): void {
  const begun = begunOf(run, line);
  const is = run.free[line] ?? 0;
  for (const stand of stands) {
    const i = indexIn(stand, run.turn, name);
    // One that has its number already is looked at only as long as it is free at another minute.
    if (i < 0 || (name === line && (stand.begun[i] !== begun || stand.free[i] === is))) return;
    stand.line[i] = line;
    if (stand.begun[i] === begun) stand.free[i] = is;
  }
}

/** Takes out all lines without a number. */
function takeOutGone(stand: Stand, turn: number): void {
  const from = turn * stand.room;
  const end = from + (stand.count[turn] ?? 0);
  let to = from;
  for (let i = from; i < end; i += 1) {
    const line = stand.line[i] ?? 0;
    if (line < 0) continue;
    if (to < i) copy(stand, i, to);
    to += 1;
  }
  stand.count[turn] = to - from;
}

/** Puts in a line in its place among those that stand there. */
function putIn(stand: Stand, run: Run, line: number): void {
  const { turn } = run;
  const count = stand.count[turn] ?? 0;
  if (count === stand.room) widen(stand, count + 1);
  const from = turn * stand.room;
  let i = from + count;
  for (; i > from && (stand.line[i - 1] ?? 0) > line; i -= 1) copy(stand, i - 1, i);
  put(stand, i, run, line);
  stand.count[turn] = count + 1;
}

function copy({ line, begun, bay, free }: Stand, from: number, to: number): void {
  line[to] = line[from] ?? 0;
  begun[to] = begun[from] ?? 0;
  bay[to] = bay[from] ?? -1;
  free[to] = free[from] ?? 0;
}
