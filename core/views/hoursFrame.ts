import { type Calendar, FAR_MIN, spansOf, subtract } from '../bays/rules/calendar.ts';
import { type DayRow, daysBetween, shiftHours, weekCalendar } from '../bays/rules/hours.ts';
import type { ReadCtx } from '../context.ts';
import { oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { PlaceRecord } from '../figures/rules/utilization.ts';
import { localDayOf, minuteOf } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import type { BaysSetupView, TechnicianView } from '../shared/views/baysSetup.ts';
import { type BayRecord, bayRecords } from './bayRecord.ts';
import { baysSetup } from './baysSetup.ts';
import { shopOf } from './shop.ts';

export type DayRange = { readonly fromDay: LocalDay; readonly toDay: LocalDay };
/** The days of a range with what the shop has set about them and what really happened in them. */
export type HoursFrame = {
  readonly days: readonly DayRow[];
  readonly span: { readonly fromMin: number; readonly toMin: number };
  readonly setup: BaysSetupView;
  readonly zone: string;
  readonly nowMin: number;
  /** The first minute of the day on which the shop was set up: what was open before is nobody's idle time. */
  readonly sinceMin: number;
  readonly records: readonly BayRecord[];
};

export function hoursFrame(
  ctx: ReadCtx,
  range: DayRange,
  setup = baysSetup(ctx.db, range.fromDay),
): HoursFrame {
  const { zone } = shopOf(ctx.db);
  const days = daysBetween(range.fromDay, range.toDay, zone);
  const span = { fromMin: days[0]?.startMin ?? 0, toMin: days.at(-1)?.endMin ?? 0 };
  return {
    days,
    span,
    zone,
    setup,
    nowMin: Math.floor(ctx.now / 60_000),
    sinceMin: sinceOf(ctx.db, zone),
    records: bayRecords(ctx.db, { ...span, nowMs: ctx.now }),
  };
}

function sinceOf(db: ReadDb, zone: string): number {
  const first = oneRow<{ atMs: number }>(db, 'SELECT at_ms AS atMs FROM journal ORDER BY id LIMIT 1');
  return first ? minuteOf(localDayOf(first.atMs, zone), 0, zone) : Number.NEGATIVE_INFINITY;
}

/** Open hours of a bay less closures, ending now: the future is not idle time. */
export function openHours(bay: BaysSetupView['bays'][number], frame: HoursFrame): Calendar {
  return lived(bayHours(bay, frame), frame);
}

/** Open hours of a bay while it is there, less closures, the future too. */
export function bayHours(
  bay: BaysSetupView['bays'][number],
  { days, setup, zone }: Pick<HoursFrame, 'days' | 'setup' | 'zone'>,
): Calendar {
  const weekly = setup.hours
    .filter((h) => h.kind === 'shop')
    .map((h) => ({ weekday: h.weekday, startMin: h.openMin, endMin: h.closeMin }));
  const shut = setup.closures.filter((c) => c.bayId === null || c.bayId === bay.bayId);
  const closed = new Set(
    days.map((d) => d.day).filter((d) => shut.some((c) => c.fromDay <= d && d <= c.toDay)),
  );
  const there = days.filter(
    (d) => bay.startedDay <= d.day && (bay.endedDay === null || d.day <= bay.endedDay),
  );
  return weekCalendar(there, weekly, zone, closed);
}

/** Shifts of somebody less closed days and absences, ending now. */
export function shiftsOf(who: TechnicianView, frame: HoursFrame): Calendar {
  return lived(shiftHours(who, frame.days, frame.zone, frame.setup), frame);
}

/** Hours since the shop was set up, ending now. */
function lived(hours: Calendar, { nowMin, sinceMin }: HoursFrame): Calendar {
  return subtract(hours, [
    { startMin: -FAR_MIN, endMin: Math.max(sinceMin, -FAR_MIN) },
    { startMin: nowMin, endMin: FAR_MIN },
  ]);
}

/** What happened, laid over the minutes that were there. */
export function placeRecord(open: Calendar, records: readonly BayRecord[]): PlaceRecord {
  const of = { attended: [], cure: [], occupied: [], blocked: [] } as Record<BayRecord['kind'], BayRecord[]>;
  for (const record of records) of[record.kind].push(record);
  return { open: spansOf(open), ...of };
}
