import { minuteOfDayAt } from '#core/shared/time.ts';

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;

/**
 * The whole hours of the shop's clock between two instants, every so many; ms, both ends included. Some zones lie half
 * an hour beside the others: there a whole hour is none by UTC.
 */
export function wholeHours(from: number, to: number, zone: string, every = 1): readonly number[] {
  const minute = Math.ceil(from / MINUTE_MS) * MINUTE_MS;
  const first = minute + ((60 - (minuteOfDayAt(minute, zone) % 60)) % 60) * MINUTE_MS;
  const count = Math.max(0, Math.floor((to - first) / (every * HOUR_MS)) + 1);
  return Array.from({ length: count }, (_, i) => first + i * every * HOUR_MS);
}
