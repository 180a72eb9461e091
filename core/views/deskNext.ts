import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { addLocalDays, minuteOf } from '../shared/time.ts';
import type { EpochMin, EpochMs, LocalDay } from '../shared/units.ts';
import type { NextCar, NextDay } from '../shared/views/desk.ts';
import { openSpans } from './deskRows.ts';

type Row = Omit<NextCar, 'atMin'> & { readonly dropOffMin: EpochMin; readonly pickUpMin: EpochMin | null };
const COMING = `SELECT j.id AS jobId, c.name AS customer, v.make_model AS makeModel, j.drop_off_min AS dropOffMin,
    j.pick_up_min AS pickUpMin
  FROM job j JOIN customer c ON c.id = j.customer_id JOIN vehicle v ON v.id = j.vehicle_id
  WHERE (j.state = 'booked' AND j.drop_off_min >= :fromMin AND j.drop_off_min < :toMin)
    OR (j.state IN ('booked', 'here', 'inWork', 'ready') AND j.pick_up_min >= :fromMin AND j.pick_up_min < :toMin)`;
/** Days that are looked through for the next open one: a long works holiday. */
const LOOKED_THROUGH = 31;

/** What comes on the next open day, once today's hours are over or where there are none; null while the desk is open or before. */
export function nextDay(db: ReadDb, today: LocalDay, zone: string, nowMs: EpochMs): NextDay | null {
  const closes = openSpans(db, today, zone).at(-1)?.endMin ?? 0;
  if (nowMs < closes * 60_000) return null;
  for (let i = 1; i <= LOOKED_THROUGH; i += 1) {
    const day = addLocalDays(today, i);
    const [first] = openSpans(db, day, zone);
    if (!first) continue;
    const [fromMin, toMin] = [minuteOf(day, 0, zone), minuteOf(addLocalDays(day, 1), 0, zone)];
    const rows = allRows<Row>(db, COMING, { fromMin, toMin });
    const cars = (at: (row: Row) => EpochMin | null): readonly NextCar[] =>
      rows
        .flatMap((row) => {
          const { jobId, customer, makeModel } = row;
          const atMin = at(row);
          return atMin !== null && fromMin <= atMin && atMin < toMin
            ? [{ jobId, customer, makeModel, atMin }]
            : [];
        })
        .sort((a, b) => a.atMin - b.atMin);
    return {
      day,
      openMin: first.startMin,
      arriving: cars((r) => r.dropOffMin),
      goingHome: cars((r) => r.pickUpMin),
    };
  }
  return null;
}
