import { TZDate } from '@date-fns/tz';
import { format, isValid } from 'date-fns';
import { dayNamed, dayNumber, plainDayAt, plainStart } from './dayStarts.ts';
import type { EpochMin, EpochMs, LocalDay } from './units.ts';

/**
 * Local-time arithmetic in the shop's zone, never the computer's.
 * A local time that a clock change skips moves forward by the gap; one that occurs twice means the first.
 */
const DAY = /^\d{4}-\d{2}-\d{2}$/;

/** True for a real calendar day written `YYYY-MM-DD`. `2026-02-30` is not one. */
export function isLocalDay(text: string): text is LocalDay {
  if (!DAY.test(text)) return false;
  const [y, m, d] = partsOf(text);
  const date = new Date(Date.UTC(y, m - 1, d));
  return isValid(date) && date.toISOString().startsWith(text);
}

function partsOf(day: string): [number, number, number] {
  return [Number(day.slice(0, 4)), Number(day.slice(5, 7)), Number(day.slice(8, 10))];
}

/** The shop's local day at an instant. */
export function localDayOf(ms: number, zone: string): LocalDay {
  const plain = plainDayAt(ms, zone);
  return plain ? dayNamed(plain.number) : (format(new TZDate(ms, zone), 'yyyy-MM-dd') as LocalDay);
}

/** The instant of `minuteOfDay` wall-clock minutes (0..1440) on a local day. */
export function instantOf(day: LocalDay, minuteOfDay: number, zone: string): EpochMs {
  const start = plainStart(dayNumber(day), zone);
  if (!Number.isNaN(start)) return (start + minuteOfDay * 60_000) as EpochMs;
  const [y, m, d] = partsOf(day);
  return new TZDate(y, m - 1, d, Math.floor(minuteOfDay / 60), minuteOfDay % 60, zone).getTime() as EpochMs;
}

/** The same as whole minutes since the epoch; seconds are dropped. */
export function minuteOf(day: LocalDay, minuteOfDay: number, zone: string): EpochMin {
  return Math.floor(instantOf(day, minuteOfDay, zone) / 60_000) as EpochMin;
}

/** Wall-clock minutes since local midnight at an instant (0..1439). */
export function minuteOfDayAt(ms: number, zone: string): number {
  const plain = plainDayAt(ms, zone);
  if (plain) return Math.floor((ms - plain.start) / 60_000);
  const at = new TZDate(ms, zone);
  return at.getHours() * 60 + at.getMinutes();
}

export function addLocalDays(day: LocalDay, count: number): LocalDay {
  return dayNamed(dayNumber(day) + count);
}

/** Calendar days from `from` to `to`; negative when `to` is earlier. */
export function localDaysBetween(from: LocalDay, to: LocalDay): number {
  return Math.round((Date.parse(`${to}T00:00Z`) - Date.parse(`${from}T00:00Z`)) / 86_400_000);
}

/** 1 = Monday … 7 = Sunday. @source ISO 8601 */
export function isoWeekday(day: LocalDay): number {
  const [y, m, d] = partsOf(day);
  return ((new Date(Date.UTC(y, m - 1, d)).getUTCDay() + 6) % 7) + 1;
}

/** ISO 8601 week as `2026-W53`. The year is the week's own, not the calendar's. */
export function isoWeek(day: LocalDay): string {
  const thursday = addLocalDays(day, 4 - isoWeekday(day));
  const year = thursday.slice(0, 4);
  const week = Math.floor(localDaysBetween(`${year}-01-01` as LocalDay, thursday) / 7) + 1;
  return `${year}-W${String(week).padStart(2, '0')}`;
}

export function isZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}
