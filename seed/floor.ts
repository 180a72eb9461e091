import type { PersonId } from '../core/shared/ids.ts';
import { addLocalDays, instantOf, isoWeekday, localDayOf } from '../core/shared/time.ts';
import type { LocalDay } from '../core/shared/units.ts';
import { OPEN, type Week, ZONE } from './crew.ts';

export type Stretch = { readonly startMs: number; readonly endMs: number };
/** Somebody's weekly hours and the days on which they are away. */
export type Hours = { readonly week: Week; readonly off: (day: LocalDay) => boolean };

/** The shop's time as the story needs it: when it is open, who is there when, and when each person is free again. */
export type Floor = {
  /** The first open instant of the shop at or after `ms`. */
  nextOpen(ms: number): number;
  /** The last hours in which the shop was open, or is, begun at or before `ms`. */
  openBefore(ms: number): Stretch;
  /** The first instant at or after `ms` at which a person is there and free. */
  startFor(person: PersonId, ms: number): number;
  /** `minutes` of a person's work from `startMs` on, cut at breaks and at the end of each shift. */
  stretches(person: PersonId, startMs: number, minutes: number): readonly Stretch[];
  hold(person: PersonId, untilMs: number): void;
};

export function floorOf(shut: (day: LocalDay) => boolean, people: ReadonlyMap<PersonId, Hours>): Floor {
  const free = new Map<PersonId, number>();
  const shop = spansBy({ week: OPEN, off: shut });
  const shifts = new Map(
    [...people].map(([id, { week, off }]) => [id, spansBy({ week, off: (day) => shut(day) || off(day) })]),
  );
  const of = (person: PersonId): Spans => shifts.get(person) ?? shop;
  return {
    nextOpen: (ms) => firstIn(shop, ms).startMs,
    openBefore: (ms) => lastIn(shop, ms),
    startFor: (person, ms) => firstIn(of(person), Math.max(ms, free.get(person) ?? 0)).startMs,
    stretches: (person, startMs, minutes) => cut(of(person), startMs, minutes * 60_000),
    hold: (person, untilMs) => void free.set(person, untilMs),
  };
}

type Spans = (day: LocalDay) => readonly Stretch[];

function spansBy(hours: Hours): Spans {
  const known = new Map<LocalDay, readonly Stretch[]>();
  return (day) => {
    let spans = known.get(day);
    if (!spans) {
      const today = hours.off(day) ? [] : hours.week.filter((w) => w.weekday === isoWeekday(day));
      spans = today.map((w) => ({
        startMs: instantOf(day, w.startMin, ZONE),
        endMs: instantOf(day, w.endMin, ZONE),
      }));
      known.set(day, spans);
    }
    return spans;
  };
}

/** What is left of the span around `ms`, or the next one. */
function firstIn(spans: Spans, ms: number): Stretch {
  for (let day = dayOf(ms); ; day = addLocalDays(day, 1)) {
    const span = spans(day).find((s) => ms < s.endMs);
    if (span) return { startMs: Math.max(ms, span.startMs), endMs: span.endMs };
  }
}

function lastIn(spans: Spans, ms: number): Stretch {
  for (let day = dayOf(ms); ; day = addLocalDays(day, -1)) {
    const span = spans(day).findLast((s) => s.startMs <= ms);
    if (span) return span;
  }
}

const OVERTIME_MS = 60 * 60_000;

/** Local days by the hour: in this zone they begin on the hour. */
const days = new Map<number, LocalDay>();
function dayOf(ms: number): LocalDay {
  const hour = Math.floor(ms / 3_600_000);
  let day = days.get(hour);
  if (day === undefined) {
    day = localDayOf(ms, ZONE);
    days.set(hour, day);
  }
  return day;
}

function cut(spans: Spans, startMs: number, ms: number): readonly Stretch[] {
  const parts: Stretch[] = [];
  let [at, left] = [startMs, ms];
  while (left > 0) {
    const span = firstIn(spans, at);
    // Nobody leaves a panel half done for the sake of an hour.
    const most = left - (span.endMs - span.startMs) <= OVERTIME_MS ? left : span.endMs - span.startMs;
    const endMs = span.startMs + Math.min(left, most);
    parts.push({ startMs: span.startMs, endMs });
    left -= endMs - span.startMs;
    at = endMs;
  }
  return parts;
}
