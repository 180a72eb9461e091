import { type Calendar, FAR_MIN, openBetween, spansOf, subtract } from '../bays/rules/calendar.ts';
import { type DayRow, daysBetween, shiftHours, weekCalendar } from '../bays/rules/hours.ts';
import type { ReadCtx } from '../context.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { type PlaceRecord, sumParts, utilizationOf } from '../figures/rules/utilization.ts';
import { localDayOf, minuteOf } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import type { BaysSetupView } from '../shared/views/baysSetup.ts';
import type { UtilizationCell, UtilizationRow, UtilizationView } from '../shared/views/figures.ts';
import { type BayRecord, bayRecords } from './bayRecord.ts';
import { baysSetup } from './baysSetup.ts';
import { shopOf } from './shop.ts';

type Range = { readonly fromDay: LocalDay; readonly toDay: LocalDay };
type Frame = {
  readonly days: readonly DayRow[];
  readonly setup: BaysSetupView;
  readonly zone: string;
  readonly nowMin: number;
  /** The first minute of the day on which the shop was set up: what was open before is nobody's idle time. */
  readonly sinceMin: number;
};

/** How the open hours of every bay were spent, by day, since the shop was set up and up to now; the yard is a place to stand, not to work, and is left out. */
export function utilizationView(ctx: ReadCtx, range: Range): UtilizationView {
  const { zone } = shopOf(ctx.db);
  const days = daysBetween(range.fromDay, range.toDay, zone);
  const setup = baysSetup(ctx.db, range.fromDay);
  const nowMin = Math.floor(ctx.now / 60_000);
  const frame: Frame = { days, setup, zone, nowMin, sinceMin: sinceOf(ctx.db, zone) };
  const span = { fromMin: days[0]?.startMin ?? 0, toMin: days.at(-1)?.endMin ?? 0 };
  const records = Map.groupBy(bayRecords(ctx.db, { ...span, nowMs: ctx.now }), (r) => r.bayId);
  const bays = setup.bays
    .filter((bay) => bay.kind !== 'yard')
    .map((bay) => rowOf(bay, frame, records.get(bay.bayId) ?? []));
  return { ...range, bays, total: sumParts(bays.map((b) => b.total)), people: people(ctx, frame, span) };
}

function sinceOf(db: ReadDb, zone: string): number {
  const first = oneRow<{ atMs: number }>(db, 'SELECT at_ms AS atMs FROM journal ORDER BY id LIMIT 1');
  return first ? minuteOf(localDayOf(first.atMs, zone), 0, zone) : Number.NEGATIVE_INFINITY;
}

function rowOf(
  bay: BaysSetupView['bays'][number],
  frame: Frame,
  records: readonly BayRecord[],
): UtilizationRow {
  const open = openHours(bay, frame);
  const cells = frame.days.map((day): UtilizationCell => {
    const near = records.filter((r) => r.startMin < day.endMin && r.endMin > day.startMin);
    const parts = utilizationOf(recordOf(open, day, near), day.startMin, day.endMin);
    const jobIds = [
      ...new Set(near.filter((r) => r.kind === 'occupied' || r.kind === 'attended').map((r) => r.jobId)),
    ];
    return { ...parts, day: day.day, closedMin: day.endMin - day.startMin - parts.availableMin, jobIds };
  });
  return { bayId: bay.bayId, name: bay.name, total: sumParts(cells), cells };
}

/** Open hours of a bay less closures, ending now: the future is not idle time. */
function openHours(bay: BaysSetupView['bays'][number], frame: Frame): Calendar {
  const { days, setup, zone } = frame;
  const weekly = setup.hours
    .filter((h) => h.kind === 'shop')
    .map((h) => ({ weekday: h.weekday, startMin: h.openMin, endMin: h.closeMin }));
  const shut = setup.closures.filter((c) => c.bayId === null || c.bayId === bay.bayId);
  const closed = new Set(
    days.map((d) => d.day).filter((d) => shut.some((c) => c.fromDay <= d && d <= c.toDay)),
  );
  const ended = days.filter((d) => bay.endedDay !== null && d.day > bay.endedDay).map((d) => d.day);
  const hours = weekCalendar(days, weekly, zone, new Set([...closed, ...ended]));
  return lived(hours, frame);
}

/** Hours since the shop was set up, ending now. */
function lived(hours: Calendar, { nowMin, sinceMin }: Frame): Calendar {
  return subtract(hours, [
    { startMin: -FAR_MIN, endMin: Math.max(sinceMin, -FAR_MIN) },
    { startMin: nowMin, endMin: FAR_MIN },
  ]);
}

function recordOf(open: Calendar, day: DayRow, near: readonly BayRecord[]): PlaceRecord {
  const of = (kind: BayRecord['kind']): readonly BayRecord[] => near.filter((r) => r.kind === kind);
  return {
    open: spansOf(open).filter((s) => s.startMin < day.endMin && s.endMin > day.startMin),
    attended: of('attended'),
    cure: of('cure'),
    occupied: of('occupied'),
    blocked: of('blocked'),
  };
}

function people(
  ctx: ReadCtx,
  frame: Frame,
  span: { readonly fromMin: number; readonly toMin: number },
): UtilizationView['people'] {
  const worked = new Map(
    allRows<{ personId: string; minutes: number }>(
      ctx.db,
      `SELECT person_id AS personId, sum(min(coalesce(end_ms, :nowMs), :toMin * 60000) - max(start_ms, :fromMin * 60000)) / 60000 AS minutes
       FROM stage_work WHERE start_ms < :toMin * 60000 AND coalesce(end_ms, :nowMs) > :fromMin * 60000 GROUP BY person_id`,
      { ...span, nowMs: ctx.now },
    ).map((r) => [r.personId, r.minutes]),
  );
  return frame.setup.technicians.map((t) => {
    const shifts = shiftHours(t, frame.days, frame.zone, frame.setup);
    const shiftMin = openBetween(lived(shifts, frame), span.fromMin, span.toMin);
    return { personId: t.personId, name: t.name, shiftMin, workedMin: worked.get(t.personId) ?? 0 };
  });
}
