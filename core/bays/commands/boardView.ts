import type { ReadCtx } from '../../context.ts';
import { refuse } from '../../shared/errors.ts';
import { addLocalDays, minuteOf } from '../../shared/time.ts';
import type { EpochMin, LocalDay, Ppm } from '../../shared/units.ts';
import type {
  BoardView,
  HandView,
  LaneUse,
  LaneView,
  PersonLaneView,
  PromiseFlag,
  SpanView,
} from '../../shared/views/bays.ts';
import { type LiveBoard, liveBoard } from '../../views/liveBoard.ts';
import { shopOf } from '../../views/shop.ts';
import { type Calendar, openBetween, type Span, spansOf } from '../rules/calendar.ts';
import type { Place, Technician } from '../rules/model.ts';
import { blocksIn } from './blocks.ts';
import { conflictViews, unplaced } from './conflicts.ts';
import { handsIn } from './hands.ts';

const min = (t: number): EpochMin => t as EpochMin;
export type Window = { readonly from: number; readonly to: number };

/** The board of some days. @throws HOURS_NOT_SET · SPAN_REVERSED */
export function boardView(
  ctx: ReadCtx,
  input: { readonly fromDay: LocalDay; readonly toDay: LocalDay },
): BoardView {
  if (input.toDay < input.fromDay) refuse('SPAN_REVERSED', { field: 'toDay' });
  const { zone } = shopOf(ctx.db);
  const live = liveBoard(ctx.db, { nowMs: ctx.now, fromDay: input.fromDay, toDay: input.toDay });
  const { board } = live;
  const w: Window = {
    from: minuteOf(input.fromDay, 0, zone),
    to: minuteOf(addLocalDays(input.toDay, 1), 0, zone),
  };
  const blocks = blocksIn(ctx.db, live, w);
  const hands = handsIn(ctx.db, blocks, w, min(board.nowMin));
  return {
    zone,
    fromMin: min(w.from),
    toMin: min(w.to),
    nowMin: min(board.nowMin),
    planRevision: live.planRevision,
    open: spansIn(board.open, w),
    desk: spansIn(board.desk, w),
    lanes: board.places.filter((p) => p.endsMin > w.from).map((p) => laneView(live, p, w)),
    people: board.technicians.map((t) => personView(live, t, hands.get(t.id) ?? [], w)),
    blocks,
    promises: flagsIn(live, w),
    conflicts: conflictViews(ctx, live),
    unplaced: unplaced(live),
  };
}

function spansIn(cal: Calendar, w: Window): readonly SpanView[] {
  return clip(spansOf(cal), w);
}

function clip(spans: readonly Span[], w: Window): readonly SpanView[] {
  return spans
    .filter((s) => s.endMin > w.from && s.startMin < w.to)
    .map((s) => ({ startMin: min(Math.max(s.startMin, w.from)), endMin: min(Math.min(s.endMin, w.to)) }));
}

function laneView(live: LiveBoard, place: Place, w: Window): LaneView {
  const revision = live.setup.bays.find((b) => b.bayId === place.id)?.revision ?? 1;
  const { id: bayId, name, kind, capacity, setupMin } = place;
  const gone = { startMin: place.endsMin, endMin: Math.max(place.endsMin, w.to) };
  const closed = clip([...place.closed, gone], w);
  return { bayId, name, kind, capacity, setupMin, closed, use: minutesOf(live, place, closed, w), revision };
}

/** Open minutes of a place split by what stood there: attended first, then cure, then standing, the rest idle. */
function minutesOf(live: LiveBoard, place: Place, closed: readonly Span[], w: Window): LaneUse {
  const { board } = live;
  const marks = new Uint8Array(Math.max(0, w.to - w.from));
  const paint = (from: number, to: number, value: number): void => {
    for (let t = Math.max(from, w.from); t < Math.min(to, w.to); t += 1)
      marks[t - w.from] = Math.max(marks[t - w.from] ?? 0, value);
  };
  for (const plan of board.plans.values()) {
    for (const s of plan.stays) if (s.bayId === place.id) paint(s.arriveMin, s.leaveMin, 1);
    for (const p of plan.pieces) {
      if (p.bayId !== place.id) continue;
      paint(p.endMin, p.dwellEndMin, 2);
      const crew = board.technicians.filter((t) => p.personIds.includes(t.id));
      for (const who of crew)
        for (const s of spansOf(who.hours))
          paint(Math.max(s.startMin, p.startMin), Math.min(s.endMin, p.endMin), 3);
    }
  }
  const sums = [0, 0, 0, 0];
  for (const s of spansIn(board.open, w))
    for (let t: number = s.startMin; t < s.endMin; t += 1)
      if (!closed.some((c) => c.startMin <= t && t < c.endMin)) {
        const kind = marks[t - w.from] ?? 0;
        sums[kind] = (sums[kind] ?? 0) + 1;
      }
  const [idleMin = 0, standingMin = 0, cureMin = 0, attendedMin = 0] = sums;
  return {
    openMin: idleMin + standingMin + cureMin + attendedMin,
    attendedMin,
    cureMin,
    standingMin,
    idleMin,
  };
}

function personView(live: LiveBoard, t: Technician, work: readonly HandView[], w: Window): PersonLaneView {
  const bookedMin = work.reduce(
    (sum, h) => sum + openBetween(t.hours, Math.max(h.startMin, w.from), Math.min(h.endMin, w.to)),
    0,
  );
  return {
    personId: t.id,
    name: t.name,
    skills: t.skills,
    speedPpm: t.speedPpm as Ppm,
    shifts: spansIn(t.hours, w),
    away: clip(
      live.setup.absences.filter((a) => a.personId === t.id),
      w,
    ),
    shiftMin: openBetween(t.hours, w.from, w.to),
    bookedMin,
    work,
  };
}

function flagsIn(live: LiveBoard, w: Window): readonly PromiseFlag[] {
  return [...live.board.plans.values()].flatMap((plan) => {
    const row = live.rows.get(plan.jobId);
    const last = plan.stays.at(-1);
    const at = row?.pickUpMin;
    if (!row || !last || !at || at < w.from || at > w.to || row.state === 'collected') return [];
    const { promisePpm, bold } = row;
    return [{ jobId: row.id, bayId: last.bayId, atMin: at, promisedPpm: promisePpm, bold: bold === 1 }];
  });
}
