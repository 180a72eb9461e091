import type { ReadCtx } from '../context.ts';
import type { ItemId } from '../shared/ids.ts';
import { isToWash, isUnsold } from '../shared/stockList.ts';
import type { LocalDay, Minor } from '../shared/units.ts';
import type {
  ChaseView,
  OpenCountView,
  StockBoard,
  StockItemRow,
  StockNeeds,
  SuggestionView,
  SupplierSuggestions,
  SupplierView,
} from '../shared/views/stock.ts';
import { shopOf } from './shop.ts';
import { chaseOf } from './stockChase.ts';
import { itemView } from './stockItemRow.ts';
import { type Judged, judge } from './stockJudge.ts';
import { missingMaterials } from './stockMissing.ts';
import { openCounts, orderRows } from './stockOrders.ts';
import { type Forward, itemRows, lookForward, type Outlook } from './stockOutlook.ts';
import { padSuggestion } from './stockPadSuggest.ts';
import { type PadLook, padRows } from './stockPads.ts';
import { withoutPutOff } from './stockPutOff.ts';
import { suggestionOf } from './stockSuggest.ts';
import { type Link, links, suppliers } from './stockSuppliers.ts';
import { toThrowAway } from './stockThrowAway.ts';

/** Days past the shown horizon that reordering looks at: a long lead time and the cover behind it. */
const BEYOND = 60;
/** Reordering looks at least so many days ahead and the ones beyond, however few are shown. */
const LEAST_HORIZON = 42;

/** Everything that the Stock screen shows, from one snapshot. */
export function stockBoard(ctx: ReadCtx, horizonDays: number): StockBoard {
  const shop = shopOf(ctx.db);
  const items = itemRows(ctx.db, false);
  const forward = lookForward(ctx.db, ctx.now, Math.max(horizonDays, LEAST_HORIZON) + BEYOND, items);
  const sellers = suppliers(ctx.db);
  const sold = links(ctx.db);
  const counts = openCounts(ctx.db);
  const orders = orderRows(ctx.db, ctx.now, true, 100);
  const pads = padRows(ctx.db, forward, items);
  const usedUp = [...forward.items.values()].filter((of) => of.item.reusable === 0);
  const judged = new Map<ItemId, Judged>();
  for (const of of usedUp) {
    const seller = sellerOf(of.item.id, sold, sellers);
    if (seller) judged.set(of.item.id, judge(of, forward, seller.supplier, seller.link, shop.settings.stock));
  }
  const chases = usedUp.flatMap((of) => chaseOf(of, forward.today, orders) ?? []);
  const found = [
    ...usedUp.flatMap((of) => suggested(of, forward.today, judged.get(of.item.id))),
    ...pads.flatMap((pad) => suggestedPads(pad, forward, sellerOf(pad.row.itemId, sold, sellers))),
  ];
  const { asked, putOff } = withoutPutOff(ctx.db, forward.today, found);
  return {
    today: forward.today,
    horizonDays,
    currency: shop.currency,
    suggestions: bySupplier(asked, sellers),
    putOff,
    chases,
    missing: missingMaterials(ctx.db, forward, items, horizonDays),
    items: itemViews(forward, horizonDays, judged, { counts, chases }),
    pads: pads.map((p: PadLook) => p.row),
    orders,
    counts,
    toThrow: toThrowAway(ctx.db, forward.today, items),
    suppliers: sellers,
    valueMinor: items.reduce((sum, i) => sum + i.valueMinor, 0) as Minor,
  };
}

function suggested(of: Outlook, today: LocalDay, judged: Judged | undefined): readonly SuggestionView[] {
  return judged?.answer.order ? [suggestionOf(of, today, judged)] : [];
}

function suggestedPads(pad: PadLook, forward: Forward, seller: Seller | null): readonly SuggestionView[] {
  const of = forward.items.get(pad.row.itemId);
  const more = of && seller && padSuggestion(of, pad, seller.supplier, seller.link);
  return more ? [more] : [];
}

/** How many things wait in Stock. */
export function stockNeeds(ctx: ReadCtx): StockNeeds {
  const board = stockBoard(ctx, LEAST_HORIZON);
  return {
    toOrder: board.suggestions.reduce((sum, s) => sum + s.lines.length, board.items.filter(isUnsold).length),
    toChase: board.chases.filter((c) => !c.late).length,
    toCount: board.counts.length,
    toWash: board.pads.filter(isToWash).length,
    toThrow: board.toThrow.length,
    late: board.orders.filter((order) => order.late).length,
  };
}

function itemViews(
  forward: Forward,
  days: number,
  judged: ReadonlyMap<ItemId, Judged>,
  open: { readonly counts: readonly OpenCountView[]; readonly chases: readonly ChaseView[] },
): readonly StockItemRow[] {
  const counting = new Set(open.counts.map((c) => c.itemId));
  const chasing = new Set(open.chases.map((c) => c.itemId));
  return [...forward.items.values()].map((of) =>
    itemView(of, forward, days, judged.get(of.item.id) ?? null, {
      countOpen: counting.has(of.item.id),
      chased: chasing.has(of.item.id),
    }),
  );
}

type Seller = { readonly supplier: SupplierView; readonly link: Link };

/** Who an item is bought from: the preferred supplier, else the cheapest. */
export function sellerOf(
  itemId: ItemId,
  sold: ReadonlyMap<ItemId, readonly Link[]>,
  sellers: readonly SupplierView[],
): Seller | null {
  const link = sold.get(itemId)?.[0];
  const supplier = sellers.find((s) => s.id === link?.supplierId);
  return link && supplier ? { link, supplier } : null;
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
