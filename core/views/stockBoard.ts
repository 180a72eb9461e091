import type { ReadCtx } from '../context.ts';
import { allRows } from '../db/prepared.ts';
import type { ItemId } from '../shared/ids.ts';
import { addLocalDays } from '../shared/time.ts';
import type { LocalDay, Minor } from '../shared/units.ts';
import type {
  OpenCountView,
  StockBoard,
  StockItemRow,
  StockNeeds,
  SuggestionView,
  SupplierSuggestions,
  SupplierView,
} from '../shared/views/stock.ts';
import { bandOf } from '../stock/rules/projection.ts';
import { shopOf } from './shop.ts';
import { openCounts, orderRows } from './stockOrders.ts';
import { type Forward, itemRows, lookForward, type Outlook } from './stockOutlook.ts';
import { padSuggestion } from './stockPadSuggest.ts';
import { type PadLook, padRows } from './stockPads.ts';
import { type Judged, judge, suggestionOf } from './stockSuggest.ts';
import { type Link, links, suppliers } from './stockSuppliers.ts';

/** Days past the shown horizon that reordering looks at: a long lead time and the cover behind it. */
const BEYOND = 60;

/** Everything that the Stock screen shows, from one snapshot. */
export function stockBoard(ctx: ReadCtx, horizonDays: number): StockBoard {
  const shop = shopOf(ctx.db);
  const items = itemRows(ctx.db, false);
  const forward = lookForward(ctx.db, ctx.now, horizonDays + BEYOND, items);
  const sellers = suppliers(ctx.db);
  const sold = links(ctx.db);
  const counts = openCounts(ctx.db);
  const later = laterUntil(ctx);
  const judged = new Map<ItemId, Judged>();
  const found: SuggestionView[] = [];
  for (const of of forward.items.values()) {
    const seller = sellerOf(of.item.id, sold, sellers);
    if (!seller || of.item.reusable === 1) continue;
    const j = judge(of, forward, seller.supplier, seller.link, shop.settings.stock);
    judged.set(of.item.id, j);
    if (j.answer.order && !put(later, of.item.id, forward.today))
      found.push(suggestionOf(of, forward.today, j));
  }
  const pads = padRows(ctx.db, forward, items);
  for (const pad of pads) {
    const of = put(later, pad.row.itemId, forward.today) ? undefined : forward.items.get(pad.row.itemId);
    const seller = sellerOf(pad.row.itemId, sold, sellers);
    const more = of && seller && padSuggestion(of, pad, seller.supplier, seller.link);
    if (more) found.push(more);
  }
  return {
    today: forward.today,
    horizonDays,
    currency: shop.currency,
    suggestions: bySupplier(found, sellers),
    items: itemViews(forward, horizonDays, judged, counts),
    pads: pads.map((p: PadLook) => p.row),
    orders: orderRows(ctx.db, ctx.now, true, 100),
    counts,
    suppliers: sellers,
    valueMinor: items.reduce((sum, i) => sum + i.valueMinor, 0) as Minor,
  };
}

/** How many things wait in Stock. */
export function stockNeeds(ctx: ReadCtx): StockNeeds {
  const board = stockBoard(ctx, 1);
  return {
    toOrder: board.suggestions.reduce((sum, s) => sum + s.lines.length, 0),
    toCount: board.counts.length,
    toWash: board.pads.filter((pad) => pad.shortage?.washHelps).length,
    late: board.orders.filter((order) => order.late).length,
  };
}

function itemViews(
  forward: Forward,
  days: number,
  judged: ReadonlyMap<ItemId, Judged>,
  counts: readonly OpenCountView[],
): readonly StockItemRow[] {
  const counting = new Set(counts.map((c) => c.itemId));
  return [...forward.items.values()].map((of) =>
    itemView(of, forward, days, judged.get(of.item.id) ?? null, counting.has(of.item.id)),
  );
}

/** Who an item is bought from: the preferred supplier, else the cheapest. */
export function sellerOf(
  itemId: ItemId,
  sold: ReadonlyMap<ItemId, readonly Link[]>,
  sellers: readonly SupplierView[],
): { readonly supplier: SupplierView; readonly link: Link } | null {
  const link = sold.get(itemId)?.[0];
  const supplier = sellers.find((s) => s.id === link?.supplierId);
  return link && supplier ? { link, supplier } : null;
}

function laterUntil(ctx: ReadCtx): ReadonlyMap<ItemId, LocalDay> {
  const rows = allRows<{ itemId: ItemId; untilDay: LocalDay }>(
    ctx.db,
    'SELECT item_id AS itemId, until_day AS untilDay FROM order_later',
  );
  return new Map(rows.map((r) => [r.itemId, r.untilDay] as const));
}

function put(later: ReadonlyMap<ItemId, LocalDay>, itemId: ItemId, today: LocalDay): boolean {
  const until = later.get(itemId);
  return until !== undefined && today < until;
}

function bySupplier(
  found: readonly SuggestionView[],
  sellers: readonly SupplierView[],
): readonly SupplierSuggestions[] {
  const groups = Map.groupBy(found, (s) => s.supplierId);
  return sellers.flatMap((supplier) => {
    const lines = groups.get(supplier.id) ?? [];
    if (lines.length === 0) return [];
    const totalMinor = lines.reduce((sum, l) => sum + l.totalMinor, 0);
    return [
      {
        supplierId: supplier.id,
        supplierName: supplier.name,
        leadDays: supplier.learnedLead ? Math.round(supplier.learnedLead.meanDays) : supplier.leadDays,
        totalMinor: totalMinor as Minor,
        belowMinimumMinor: Math.max(0, supplier.minOrderMinor - totalMinor) as Minor,
        lines,
      },
    ];
  });
}

/** One item as the list shows it. */
export function itemView(
  of: Outlook,
  forward: Forward,
  days: number,
  judged: Judged | null,
  countOpen: boolean,
): StockItemRow {
  const { item } = of;
  const { booked, onOrder, arrivals } = within(of, forward.today, days);
  const band = bandOf(of.projected);
  const { runOut } = of.projected;
  return {
    id: item.id,
    name: item.name,
    material: item.material,
    unit: item.unit,
    reusable: item.reusable === 1,
    place: item.place,
    packSize: judged?.link.packSize ?? item.packSize,
    packWord: item.packWord,
    packPriceMinor: judged?.link.priceMinor ?? null,
    onHand: item.onHand,
    booked: Math.round(booked),
    available: Math.round(item.onHand - booked),
    onOrder,
    valueMinor: item.valueMinor,
    runOutDay: runOut !== null && runOut < days ? addLocalDays(forward.today, runOut) : null,
    reorderPoint: Math.round(judged?.answer.reorderPoint ?? 0),
    countOpen,
    needsHand: countOpen || (judged?.answer.order ?? false),
    arrivals,
    series: {
      low: band.low.slice(0, days),
      mid: band.mid.slice(0, days),
      high: band.high.slice(0, days),
    },
  };
}

/** What is booked, what is on order and on which days it comes, within the days shown. */
function within(of: Outlook, today: LocalDay, days: number) {
  let booked = 0;
  let onOrder = 0;
  const arrivals: LocalDay[] = [];
  for (let k = 0; k < days; k += 1) {
    booked += of.booked[k] ?? 0;
    onOrder += of.arrivals[k] ?? 0;
    if ((of.arrivals[k] ?? 0) > 0) arrivals.push(addLocalDays(today, k));
  }
  return { booked, onOrder, arrivals };
}
