import { TZDate } from '@date-fns/tz';
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

function midnight(number: number, zone: string): number {
  const at = new Date(number * MS_PER_DAY);
  return new TZDate(at.getUTCFullYear(), at.getUTCMonth(), at.getUTCDate(), 0, 0, zone).getTime();
}

/**
 * When a day of 24 plain hours begins; NaN for a day on which the clock changes, which the zone's rules must answer.
 * Kept, because asking the zone's rules costs a hundred times as much and a board asks for the same days again.
 */
export function plainStart(number: number, zone: string): number {
  let days = zones.get(zone);
  if (!days) {
    days = new Map();
    zones.set(zone, days);
  }
  const known = days.get(number);
  if (known !== undefined) return known;
  const start = midnight(number, zone);
  const plain = midnight(number + 1, zone) - start === MS_PER_DAY && new TZDate(start, zone).getHours() === 0;
  if (days.size >= MOST) days.clear();
  days.set(number, plain ? start : Number.NaN);
  return plain ? start : Number.NaN;
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
