import type { ReadCtx } from '../../context.ts';
import { refuse } from '../../shared/errors.ts';
import { addLocalDays, minuteOf } from '../../shared/time.ts';
import type { EpochMin, LocalDay, Ppm } from '../../shared/units.ts';
import type { BoardView, HandView, PersonLaneView, PromiseFlag, SpanView } from '../../shared/views/bays.ts';
import { type LiveBoard, liveBoard } from '../../views/liveBoard.ts';
import { shopOf } from '../../views/shop.ts';
import { type Calendar, openBetween, spansOf } from '../rules/calendar.ts';
import type { Technician } from '../rules/model.ts';
import { blocksIn } from './blocks.ts';
import { conflictViews, unplaced } from './conflicts.ts';
import { handsIn } from './hands.ts';
import { clip, drawnIn, laneView, type Window } from './lanes.ts';

const min = (t: number): EpochMin => t as EpochMin;

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
  const drawn = drawnIn(blocks, hands);
  return {
    zone,
    fromMin: min(w.from),
    toMin: min(w.to),
    nowMin: min(board.nowMin),
    planRevision: live.planRevision,
    open: spansIn(board.open, w),
    desk: spansIn(board.desk, w),
    lanes: board.places.filter((p) => p.endsMin > w.from).map((p) => laneView(live, p, drawn(p.id), w)),
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
