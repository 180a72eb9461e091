import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { ItemId, JobId } from '../shared/ids.ts';
import { addLocalDays, instantOf, localDayOf, localDaysBetween } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import type { Material } from '../shared/vocabulary.ts';

/** What a booked job will ask of a material, on the day it comes. */
export type BookedNeed = {
  readonly jobId: JobId;
  readonly number: number;
  readonly customer: string;
  readonly material: Material;
  readonly amount: number;
  readonly day: number;
};
type NeedRow = Omit<BookedNeed, 'day'> & { readonly dropOffMin: number };

/** Stages not done yet of jobs that are booked or here, also of a car that came unbooked. What is overdue falls on today. */
const BOOKED = `SELECT j.id AS jobId, j.number, c.name AS customer, m.material, sum(m.amount) AS amount,
  coalesce(j.drop_off_min, j.arrived_ms / 60000) AS dropOffMin
  FROM job j JOIN customer c ON c.id = j.customer_id JOIN job_stage s ON s.job_id = j.id
  JOIN job_material m ON m.stage_id = s.id
  WHERE j.state IN ('booked', 'here', 'inWork') AND coalesce(j.drop_off_min, j.arrived_ms / 60000) < :untilMin
    AND s.state IN ('planned', 'inWork', 'paused')
  GROUP BY j.id, m.material ORDER BY dropOffMin, j.number`;

type LeadRow = { readonly bookedMs: number; readonly dropOffMin: number };
/** From when the day was agreed, never from the first call: a job that is only asked for books no material yet. */
const LEADS = `SELECT coalesce(booked_ms, created_ms) AS bookedMs, drop_off_min AS dropOffMin FROM job
  WHERE drop_off_min IS NOT NULL AND drop_off_min >= :fromMin AND drop_off_min < :toMin
    AND state NOT IN ('cancelled', 'noShow', 'enquiry', 'quoted')`;

const ARRIVING = `SELECT l.item_id AS itemId, coalesce(l.due_day, o.due_day) AS dueDay,
  (l.packs - l.cancelled_packs - l.received_packs) * l.pack_size AS amount
  FROM purchase_order_line l JOIN purchase_order o ON o.id = l.order_id
  WHERE l.packs > l.cancelled_packs + l.received_packs`;

/** Needs of booked jobs over `days` from today, by drop-off day; what is overdue falls on today. */
export function bookedNeeds(db: ReadDb, today: LocalDay, days: number, zone: string): readonly BookedNeed[] {
  const untilMin = instantOf(addLocalDays(today, days), 0, zone) / 60_000;
  const dayOf = new Map<number, number>();
  return allRows<NeedRow>(db, BOOKED, { untilMin }).map(({ dropOffMin, ...row }) => {
    let day = dayOf.get(dropOffMin);
    if (day === undefined) {
      day = Math.max(0, localDaysBetween(today, localDayOf(dropOffMin * 60_000, zone)));
      dayOf.set(dropOffMin, day);
    }
    return { ...row, day };
  });
}

/** Whole and broken days from booking to drop-off of the jobs of the last `history` days. */
export function bookingLeads(db: ReadDb, midnight: number, history: number): readonly number[] {
  const toMin = midnight / 60_000;
  const rows = allRows<LeadRow>(db, LEADS, { fromMin: toMin - history * 1440, toMin });
  return rows.map((r) => Math.max(0, (r.dropOffMin - r.bookedMs / 60_000) / 1440));
}

/** What is on order of an item: all of it, and by the day it is due within the days looked at (overdue: tomorrow). */
export type Coming = { readonly byDay: Float64Array; readonly total: number };

export function comingByItem(db: ReadDb, today: LocalDay, days: number): ReadonlyMap<ItemId, Coming> {
  const found = new Map<ItemId, { readonly byDay: Float64Array; total: number }>();
  for (const r of allRows<{ itemId: ItemId; dueDay: LocalDay; amount: number }>(db, ARRIVING)) {
    const at = r.dueDay < today ? 1 : localDaysBetween(today, r.dueDay);
    const row = found.get(r.itemId) ?? { byDay: new Float64Array(days), total: 0 };
    row.total += r.amount;
    if (at < days) row.byDay[at] = (row.byDay[at] ?? 0) + r.amount;
    found.set(r.itemId, row);
  }
  return found;
}
