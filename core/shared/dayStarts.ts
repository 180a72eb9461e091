import { tzOffset } from '@date-fns/tz';
import type { LocalDay } from './units.ts';

const MS_PER_DAY = 86_400_000;
/** Some forty years of days a zone: more than a shop ever looks at. */
const MOST = 15_000;
const names = new Map<number, LocalDay>();
const zones = new Map<string, Map<number, number>>();

/** Days since 1970-01-01 of a calendar day. */
export function dayNumber(day: LocalDay): number {
  return (
    Date.UTC(Number(day.slice(0, 4)), Number(day.slice(5, 7)) - 1, Number(day.slice(8, 10))) / MS_PER_DAY
  );
}

/** The calendar day that many days after 1970-01-01. */
export function dayNamed(number: number): LocalDay {
  const known = names.get(number);
  if (known) return known;
  const name = new Date(number * MS_PER_DAY).toISOString().slice(0, 10) as LocalDay;
  if (names.size >= MOST) names.clear();
  names.set(number, name);
  return name;
}

/** The zone's offset at an instant, ms east of UTC. */
function offsetAt(ms: number, zone: string): number {
  return tzOffset(zone, new Date(ms)) * 60_000;
}

/**
 * When a day begins whose clock does not change from just before its midnight to the next one; else NaN. The offset is
 * looked at before the day and after it: no zone of the IANA database changes it twice within one day.
 */
function unchanged(number: number, zone: string, before: number | undefined): number {
  const start = (offset: number): number => number * MS_PER_DAY - offset;
  // The day before, when it is plain, has told the offset up to here.
  const offset =
    before === undefined || Number.isNaN(before)
      ? offsetAt(number * MS_PER_DAY, zone)
      : (number - 1) * MS_PER_DAY - before;
  const from = start(offset);
  const same = (ms: number): boolean => offsetAt(ms, zone) === offset;
  const begins = before === from - MS_PER_DAY || same(from - 1);
  return begins && same(from + MS_PER_DAY) ? from : Number.NaN;
}

/**
 * When a day of 24 plain hours begins; NaN for a day on which or next to which the clock changes, which the zone's rules
 * must answer. Kept, because asking the zone's rules costs a hundred times as much and a board asks for the same days again.
 */
export function plainStart(number: number, zone: string): number {
  let days = zones.get(zone);
  if (!days) {
    days = new Map();
    zones.set(zone, days);
  }
  const known = days.get(number);
  if (known !== undefined) return known;
  const start = unchanged(number, zone, days.get(number - 1));
  if (days.size >= MOST) days.clear();
  days.set(number, start);
  return start;
}

/** The plain day an instant falls in; null when the clock changes on it. */
export function plainDayAt(
  ms: number,
  zone: string,
): { readonly number: number; readonly start: number } | null {
  const utc = Math.floor(ms / MS_PER_DAY);
  for (const number of [utc, utc + 1, utc - 1]) {
    const start = plainStart(number, zone);
    if (start <= ms && ms < start + MS_PER_DAY) return { number, start };
  }
  return null;
}
