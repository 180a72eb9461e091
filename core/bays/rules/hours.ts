import { addLocalDays, isoWeekday, minuteOf } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { type Calendar, calendarOf, type Span, subtract } from './calendar.ts';

/** A weekly opening or shift: wall-clock minutes since local midnight, 0..1440, on an ISO weekday 1..7. */
export type WeeklySpan = { readonly weekday: number; readonly startMin: number; readonly endMin: number };
/** A day of the shop's zone with its first minute and its length: 1440, or what a clock change makes of it. */
export type DayRow = {
  readonly day: LocalDay;
  readonly weekday: number;
  readonly startMin: number;
  readonly endMin: number;
};

/** The local days `from` … `to` (both included) with the minutes they cover. */
export function daysBetween(from: LocalDay, to: LocalDay, zone: string): readonly DayRow[] {
  const rows: DayRow[] = [];
  let startMin: number = minuteOf(from, 0, zone);
  for (let day = from; day <= to; day = addLocalDays(day, 1)) {
    const endMin = minuteOf(addLocalDays(day, 1), 0, zone);
    rows.push({ day, weekday: isoWeekday(day), startMin, endMin });
    startMin = endMin;
  }
  return rows;
}

/** The minute of a wall-clock time on a day: plain addition, but by the zone's rules where the clock changes. */
export function wallMinute(row: DayRow, minuteOfDay: number, zone: string): number {
  if (row.endMin - row.startMin === 1440) return row.startMin + minuteOfDay;
  return minuteOfDay >= 1440 ? row.endMin : minuteOf(row.day, minuteOfDay, zone);
}

/**
 * Weekly hours laid over real days. Days in `closed` have none. A span that a clock change swallows whole
 * vanishes; one that it stretches is longer.
 */
export function weekCalendar(
  days: readonly DayRow[],
  weekly: readonly WeeklySpan[],
  zone: string,
  closed: ReadonlySet<LocalDay> = new Set(),
): Calendar {
  const spans: Span[] = [];
  for (const row of days) {
    if (closed.has(row.day)) continue;
    for (const w of weekly) {
      if (w.weekday !== row.weekday) continue;
      const startMin = wallMinute(row, w.startMin, zone);
      const endMin = wallMinute(row, w.endMin, zone);
      if (endMin > startMin) spans.push({ startMin, endMin });
    }
  }
  return calendarOf(spans);
}

/** Days that the shop closed as a whole. */
export function closedDays(days: readonly DayRow[], closures: readonly Closure[]): ReadonlySet<LocalDay> {
  const whole = closures.filter((c) => c.bayId === null);
  return new Set(days.map((d) => d.day).filter((d) => whole.some((c) => c.fromDay <= d && d <= c.toDay)));
}
export type Closure = {
  readonly fromDay: LocalDay;
  /** Included. */
  readonly toDay: LocalDay;
  /** The one bay that is closed; null = the whole shop. */
  readonly bayId: string | null;
};

/** Somebody's week, and the days between which they are with the shop, both included; null = still there. */
export type Worker = {
  readonly personId: string;
  readonly shifts: readonly WeeklySpan[];
  readonly startedDay: LocalDay;
  readonly endedDay: LocalDay | null;
};

/** When somebody is at work: their weekly shifts while they are with the shop, less closed days and absences. */
export function shiftHours(
  who: Worker,
  days: readonly DayRow[],
  zone: string,
  free: {
    readonly closures: readonly Closure[];
    readonly absences: readonly (Span & { personId: string })[];
  },
): Calendar {
  const there = days.filter(
    (d) => who.startedDay <= d.day && (who.endedDay === null || d.day <= who.endedDay),
  );
  const shifts = weekCalendar(there, who.shifts, zone, closedDays(there, free.closures));
  return subtract(
    shifts,
    free.absences.filter((a) => a.personId === who.personId),
  );
}

/** Handover slots: from each opening of the desk, every `slotMin` minutes, before it closes. */
export function slotsOf(desk: Calendar, slotMin: number): readonly number[] {
  const slots: number[] = [];
  for (let i = 0; i < desk.starts.length; i += 1) {
    for (let t = desk.starts[i] ?? 0; t < (desk.ends[i] ?? 0); t += slotMin) slots.push(t);
  }
  return slots;
}
