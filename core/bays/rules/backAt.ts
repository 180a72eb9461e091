import { lastBelow, NEVER } from './calendar.ts';
import type { Columns } from './columns.ts';
import type { LineChanges } from './lineChanges.ts';
import type { Run } from './run.ts';
import { begunOf, indexIn, oldName, oldOf, type Stand } from './stands.ts';
import { openingBy } from './walk.ts';

/**
 * Whether all cars but its own stand in a run so that they go on as they did from a stand: what differs is at most since
 * when somebody, a bay or a car is free, where all of that is before anybody asks for them.
 */
export function isBackAt(at: Stand, run: Run, own: number): boolean {
  return (
    isHeldAs(at, run) &&
    standAs(at, run, (line) => line === own) &&
    arePeopleAs(at, run) &&
    areBaysAs(at, run)
  );
}

/** How the lines that are played differ from those that stands are of, and the columns of these. */
export type Before = LineChanges & { readonly columns: Columns };

/**
 * Whether all go on as they did from a stand until the next of the pieces that differ is planned: each line either has nothing
 * to do until then, neither as it was nor as it is, or has all that differs of it behind it and goes on as it did.
 */
export function isBackAs(at: Stand, run: Run, before: Before): boolean {
  const nextMin = before.minutes[lastBelow(before.minutes, at.untilMin) + 1] ?? NEVER;
  return (
    isHeldAs(at, run) &&
    areLaterNow(at, run, before, nextMin) &&
    wereLater(at, run, before, nextMin) &&
    standAs(at, run, (line) => before.differ[line] !== 0) &&
    arePeopleAs(at, run) &&
    areBaysAs(at, run)
  );
}

function areLaterNow(at: Stand, run: Run, before: Before, nextMin: number): boolean {
  const { live, next, count, columns } = run;
  for (let k = 0; k < count; k += 1) {
    const line = live[k] ?? 0;
    if ((columns.firstMin[line] ?? 0) >= at.untilMin) break;
    if (before.differ[line] === 0 || (columns.startMin[next[line] ?? 0] ?? 0) >= nextMin) continue;
    if (goesOnAt(at, run, before, line) < 0) return false;
  }
  return true;
}

function wereLater(at: Stand, run: Run, before: Before, nextMin: number): boolean {
  const { pieceFrom, startMin } = before.columns;
  const from = run.turn * at.room;
  for (let i = from; i < from + (at.count[run.turn] ?? 0); i += 1) {
    const old = oldOf(at.line[i] ?? 0);
    if (old < 0 || (startMin[(pieceFrom[old] ?? 0) + (at.begun[i] ?? 0)] ?? 0) >= nextMin) continue;
    const line = before.isNow[old] ?? -1;
    if (line < 0 || !isLive(run, line) || goesOnAt(at, run, before, line) !== i) return false;
  }
  return true;
}

function isLive({ live, count }: Run, line: number): boolean {
  for (let k = 0; k < count; k += 1) if (live[k] === line) return true;
  return false;
}

/** Where in a stand a line is that has all that differs of it behind it and goes on as it did; −1 = it does not, or nowhere. */
export function goesOnAt(at: Stand, run: Run, { was, differ }: Before, line: number): number {
  const old = was[line] ?? -1;
  const i = old < 0 || begunOf(run, line) < (differ[line] ?? 0) ? -1 : indexIn(at, run.turn, oldName(old));
  return i >= 0 && standsAs(at, i, run, line) ? i : -1;
}

function isHeldAs(at: Stand, { held, turn }: Run): boolean {
  for (let b = 0; b < held.length; b += 1) if (held[b] !== at.held[turn * held.length + b]) return false;
  return true;
}

function standAs(at: Stand, run: Run, isOut: (line: number) => boolean): boolean {
  const { live, columns } = run;
  let i = run.turn * at.room;
  const end = i + (at.count[run.turn] ?? 0);
  while (i < end && (at.line[i] ?? 0) < 0) i += 1;
  for (let k = 0; k < run.count; k += 1) {
    const line = live[k] ?? 0;
    if (isOut(line)) continue;
    if ((columns.firstMin[line] ?? 0) >= at.untilMin) break;
    if (i === end || at.line[i] !== line || !standsAs(at, i, run, line)) return false;
    for (i += 1; i < end && (at.line[i] ?? 0) < 0; ) i += 1;
  }
  return i === end;
}

/** Begun as far, in the same bay, free at the same minute or in time. */
function standsAs(at: Stand, i: number, run: Run, line: number): boolean {
  if (at.begun[i] !== begunOf(run, line) || at.bay[i] !== run.bay[line]) return false;
  const [was, is] = [at.free[i] ?? 0, run.free[line] ?? 0];
  return was === is || Math.max(was, is) <= freeInTime(run, line);
}

/** A car that is free by then can begin its next piece when it is planned: it was driven over while the shop was open, and settled. */
function freeInTime({ columns, next }: Run, line: number): number {
  const { startMin, gapMin, settleMin, enters, hours, open } = columns;
  const n = next[line] ?? 0;
  const planned = startMin[n] ?? -NEVER;
  const waited = planned - (gapMin[n] ?? 0);
  return enters[n] === 1 ? Math.min(waited, openingBy(hours, open, planned - (settleMin[n] ?? 0))) : waited;
}

/** Nobody is asked for before the soonest that any of all next pieces can begin. */
function arePeopleAs(at: Stand, run: Run): boolean {
  const { peopleFree, turn, live, least } = run;
  let soonest = comingMin(run);
  for (let k = 0; k < run.count; k += 1) soonest = Math.min(soonest, least[live[k] ?? 0] ?? NEVER);
  for (let p = 0; p < peopleFree.length; p += 1) {
    const [was, is] = [at.peopleFree[turn * peopleFree.length + p] ?? 0, peopleFree[p] ?? 0];
    if (was !== is && Math.max(was, is) > soonest) return false;
  }
  return true;
}

/** Who comes into a bay that is free by an opening, and has settled in it before the next piece there is planned, is in time. */
function areBaysAs(at: Stand, run: Run): boolean {
  const { bayFree, turn, columns } = run;
  for (let b = 0; b < bayFree.length; b += 1) {
    const [was, is] = [at.bayFree[turn * bayFree.length + b] ?? 0, bayFree[b] ?? 0];
    if (was === is) continue;
    const inTime = openingBy(columns.hours, columns.open, plannedIn(run, b) - columns.mostSettleMin);
    if (Math.max(was, is) >= inTime) return false;
  }
  return true;
}

/** The planned start of the earliest of all next pieces that a car may come into a bay for. */
function plannedIn(run: Run, bay: number): number {
  const { live, next, columns, count } = run;
  const { startMin, pieceFrom, bayFrom, bayTo, bays } = columns;
  let planned = comingMin(run);
  for (let k = 0; k < count; k += 1) {
    const line = live[k] ?? 0;
    for (let n = next[line] ?? 0; n < (pieceFrom[line + 1] ?? 0); n += 1)
      for (let b = bayFrom[n] ?? 0; b < (bayTo[n] ?? 0); b += 1)
        if (bays[b] === bay) planned = Math.min(planned, startMin[n] ?? NEVER);
  }
  return planned;
}

/** The planned start of the first line that was not looked at. */
function comingMin({ sequence, reach, columns }: Run): number {
  const coming = sequence[reach];
  return coming === undefined ? NEVER : (columns.firstMin[coming] ?? NEVER);
}
