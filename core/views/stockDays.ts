import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { addLocalDays, isoWeekday } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';

type Closure = { readonly fromDay: LocalDay; readonly toDay: LocalDay };
const WEEKDAYS = `SELECT DISTINCT weekday FROM opening_hours WHERE kind = 'shop'`;
const CLOSED = `SELECT from_day AS fromDay, to_day AS toDay FROM closure
  WHERE bay_id IS NULL AND to_day >= :from AND from_day < :to`;

/**
 * For `days` days from `from` on, 1 where the shop works and 0 where it is shut: by its weekly hours, as they are
 * today, and the days it closed as a whole. A shop that has not said its hours yet counts as open every day.
 */
export function openShopDays(db: ReadDb, from: LocalDay, days: number): Uint8Array {
  const open = new Uint8Array(days);
  const weekdays = new Set(allRows<{ weekday: number }>(db, WEEKDAYS).map((r) => r.weekday));
  const closed = allRows<Closure>(db, CLOSED, { from, to: addLocalDays(from, days) });
  let at = from;
  for (let k = 0; k < days; k += 1, at = addLocalDays(at, 1)) {
    const works = weekdays.size === 0 || weekdays.has(isoWeekday(at));
    if (works && !closed.some((c) => c.fromDay <= at && at <= c.toDay)) open[k] = 1;
  }
  return open;
}
