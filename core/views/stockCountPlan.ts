import type { ReadCtx } from '../context.ts';
import { allRows } from '../db/prepared.ts';
import type { ItemId } from '../shared/ids.ts';
import { localDayOf, localDaysBetween } from '../shared/time.ts';
import type { EpochMs } from '../shared/units.ts';
import type { CountPlan, CountPlanRow, CountWhy } from '../shared/views/stockCounts.ts';
import { type Counted, DAILY, pressing, turnOf, valueClasses } from '../stock/rules/countPlan.ts';
import { shopOf } from './shop.ts';
import { openCounts } from './stockOrders.ts';

type Row = Omit<CountPlanRow, 'of' | 'why'> & {
  readonly firstMs: EpochMs | null;
  readonly used: number;
  readonly costQty: number;
  readonly costMinor: number;
};
const YEAR_MS = 365 * 86_400_000;
/** Items kept, with a year's draws, what the latest purchase cost and when they were counted last. */
const ITEMS = `SELECT i.id AS itemId, i.name AS itemName, i.place, i.barcode, i.base_unit AS unit, i.pack_size AS packSize,
    i.pack_word AS packWord, ifnull(l.last_cost_qty, 0) AS costQty, ifnull(l.last_cost_minor, 0) AS costMinor,
    ifnull(u.used, 0) AS used, (SELECT max(c.closed_ms) FROM stock_count c WHERE c.item_id = i.id) AS lastCountMs,
    (SELECT min(m.at_ms) FROM stock_movement m WHERE m.item_id = i.id) AS firstMs,
    ifnull((SELECT max(m.id) FROM stock_movement m WHERE m.item_id = i.id), 0) AS asOfMovementId
  FROM stock_item i LEFT JOIN stock_level l ON l.item_id = i.id
  LEFT JOIN (SELECT item_id, -sum(qty) AS used FROM stock_movement
    WHERE reason = 'draw' AND at_ms >= :fromMs GROUP BY item_id) u ON u.item_id = i.id
  WHERE i.ended_day IS NULL ORDER BY i.id`;
const CORRECTED = `SELECT m.item_id AS itemId, count(DISTINCT m.corrects_id) AS times FROM stock_movement m
  WHERE m.corrects_id IS NOT NULL AND m.at_ms > ifnull(
    (SELECT max(c.closed_ms) FROM stock_count c WHERE c.item_id = m.item_id), 0) GROUP BY m.item_id`;

/**
 * What is to be counted today: everything asked for, and of the items whose turn has come the most pressing few. Items
 * that never moved have nothing to count.
 */
export function countPlan(ctx: ReadCtx): CountPlan {
  const { zone } = shopOf(ctx.db);
  const today = localDayOf(ctx.now, zone);
  const rows = allRows<Row>(ctx.db, ITEMS, { fromMs: ctx.now - YEAR_MS });
  const corrected = new Map(
    allRows<{ itemId: ItemId; times: number }>(ctx.db, CORRECTED).map((r) => [r.itemId, r.times] as const),
  );
  const asked = new Map<ItemId, CountWhy>(openCounts(ctx.db).map((c) => [c.itemId, c.why]));
  const classes = valueClasses(rows.map((r) => (r.costQty > 0 ? (r.used * r.costMinor) / r.costQty : 0)));
  const due: { readonly row: CountPlanRow; readonly press: number }[] = [];
  const open: CountPlanRow[] = [];
  for (const [i, { firstMs, used: _, costQty: _q, costMinor: _m, ...row }] of rows.entries()) {
    const of = classes[i] ?? 'C';
    const why = asked.get(row.itemId);
    if (why) open.push({ ...row, of, why });
    else if (firstMs !== null) {
      const days = localDaysBetween(localDayOf(row.lastCountMs ?? firstMs, zone), today);
      const counted: Counted = { of, days, corrections: corrected.get(row.itemId) ?? 0 };
      const turn = turnOf(counted);
      if (turn) due.push({ row: { ...row, of, why: turn }, press: pressing(counted) });
    }
  }
  due.sort((a, b) => b.press - a.press || (a.row.itemId < b.row.itemId ? -1 : 1));
  const list = [...open, ...due.slice(0, DAILY).map((d) => d.row)].sort(byShelf);
  return { today, rows: list, later: Math.max(0, due.length - DAILY) };
}

function byShelf(a: CountPlanRow, b: CountPlanRow): number {
  return a.place.localeCompare(b.place, 'en') || a.itemName.localeCompare(b.itemName, 'en');
}
