import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { ItemId, SupplierId } from '../shared/ids.ts';
import { isLocalDay } from '../shared/time.ts';
import type { LocalDay, Minor } from '../shared/units.ts';
import type { SupplierView } from '../shared/views/stock.ts';
import type { PriceBreak } from '../shared/views/stockItem.ts';
import {
  type LearnedLead,
  learnLead,
  openDaysBetween,
  type SupplierDays,
} from '../stock/rules/supplierDays.ts';

type Lead = { readonly supplierId: SupplierId; readonly orderedDay: LocalDay; readonly cameDay: LocalDay };

/** First delivery on each order: how long the supplier took. Later parts would blame them twice. */
const LEADS = `SELECT o.supplier_id AS supplierId, o.ordered_day AS orderedDay, min(d.came_day) AS cameDay
  FROM purchase_order o JOIN delivery d ON d.order_id = o.id
  GROUP BY o.id HAVING min(d.came_day) >= o.ordered_day ORDER BY o.ordered_day DESC LIMIT 2000`;
const RECENT = 20;

type Known = { readonly id: SupplierId } & SupplierDays;

/** Lead times learned from the latest deliveries, in each supplier's working days. */
export function learnedLeads(db: ReadDb, suppliers: readonly Known[]): ReadonlyMap<SupplierId, LearnedLead> {
  const bySupplier = Map.groupBy(allRows<Lead>(db, LEADS), (r) => r.supplierId);
  const found = new Map<SupplierId, LearnedLead>();
  for (const s of suppliers) {
    const leads = (bySupplier.get(s.id) ?? []).slice(0, RECENT);
    const learned = learnLead(leads.map((l) => openDaysBetween(l.orderedDay, l.cameDay, s)));
    if (learned) found.set(s.id, learned);
  }
  return found;
}

/** When a supplier works and how long they take: learned where there are deliveries, else as written down. */
export function supplierDaysOf(db: ReadDb, s: Known): SupplierDays {
  const learned = learnedLeads(db, [s]).get(s.id);
  return learned ? { ...s, leadDays: Math.round(learned.meanDays) } : s;
}

type Row = Omit<SupplierView, 'openWeekdays' | 'closedDays' | 'learnedLead'> & {
  readonly openWeekdays: string;
  readonly closedDays: string;
};
const SUPPLIERS = `SELECT id, name, email, lead_days AS leadDays, open_weekdays AS openWeekdays,
  closed_days AS closedDays, min_order_minor AS minOrderMinor, revision
  FROM supplier WHERE ended_day IS NULL ORDER BY name COLLATE NOCASE`;

/** Every supplier still used, with what was learned of their lead time. */
export function suppliers(db: ReadDb): readonly SupplierView[] {
  const rows = allRows<Row>(db, SUPPLIERS).map((r) => ({
    ...r,
    openWeekdays: JSON.parse(r.openWeekdays) as number[],
    closedDays: (JSON.parse(r.closedDays) as string[]).filter(isLocalDay),
  }));
  const learned = learnedLeads(db, rows);
  return rows.map((r) => ({ ...r, learnedLead: learned.get(r.id) ?? null }));
}

export type Link = {
  readonly supplierId: SupplierId;
  readonly itemId: ItemId;
  readonly code: string;
  readonly packSize: number;
  readonly priceMinor: Minor;
  readonly breaks: readonly PriceBreak[];
  readonly preferred: number;
  readonly revision: number;
};
const LINKS = `SELECT l.supplier_id AS supplierId, l.item_id AS itemId, l.code, l.pack_size AS packSize,
  l.price_minor AS priceMinor, l.breaks, l.preferred, l.revision
  FROM supplier_item l JOIN supplier s ON s.id = l.supplier_id WHERE s.ended_day IS NULL
  ORDER BY l.preferred DESC, l.price_minor * 1.0 / l.pack_size, s.name`;

/** Who sells what, the preferred supplier of an item first, then the cheapest. */
export function links(db: ReadDb): ReadonlyMap<ItemId, readonly Link[]> {
  const rows = allRows<Omit<Link, 'breaks'> & { breaks: string }>(db, LINKS);
  return Map.groupBy(
    rows.map((r) => ({ ...r, breaks: JSON.parse(r.breaks) as PriceBreak[] })),
    (r) => r.itemId,
  );
}
