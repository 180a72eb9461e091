import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { ItemId } from '../shared/ids.ts';
import { addLocalDays, instantOf, isoWeekday, localDayOf } from '../shared/time.ts';
import type { EpochMs, LocalDay, Minor } from '../shared/units.ts';
import type { StockItemDetail } from '../shared/views/stockItem.ts';
import type { Material } from '../shared/vocabulary.ts';
import { onOpenDays, shareNotBooked, type UsualUse, usualUse } from '../stock/rules/demand.ts';
import { type Projected, project } from '../stock/rules/projection.ts';
import { shopOf } from './shop.ts';
import { openShopDays } from './stockDays.ts';
import { type BookedNeed, bookedNeeds, bookingLeads, comingByItem } from './stockFlows.ts';
import { drawnPerDay } from './stockHistory.ts';

export type ItemRow = Omit<StockItemDetail, 'reusable'> & {
  readonly reusable: number;
  readonly onHand: number;
  readonly valueMinor: Minor;
};
const ITEMS = `SELECT i.id, i.name, i.material, i.base_unit AS unit, i.pack_size AS packSize, i.pack_word AS packWord,
  i.place, i.shelf_packs AS shelfPacks, i.sealed_life_days AS sealedLifeDays, i.opened_life_days AS openedLifeDays,
  i.hazards, i.sheet, i.barcode, i.reusable, i.uses_per_life AS usesPerLife, i.preference, i.ended_day AS endedDay,
  i.revision, ifnull(l.qty, 0) AS onHand, ifnull(l.value_minor, 0) AS valueMinor
  FROM stock_item i LEFT JOIN stock_level l ON l.item_id = i.id`;

/** Items with what is on hand, by name; those no longer kept only when asked for. */
export function itemRows(db: ReadDb, withEnded: boolean): readonly ItemRow[] {
  const which = withEnded ? '' : 'WHERE i.ended_day IS NULL';
  return allRows<ItemRow>(db, `${ITEMS} ${which} ORDER BY i.name COLLATE NOCASE`);
}

/** One item whether kept or not. */
export function itemRow(db: ReadDb, id: ItemId): ItemRow | undefined {
  return allRows<ItemRow>(db, `${ITEMS} WHERE i.id = :id`, { id })[0];
}

export type Outlook = {
  readonly item: ItemRow;
  readonly booked: Float64Array;
  readonly usual: Float64Array;
  readonly usualVar: Float64Array;
  readonly arrivals: Float64Array;
  /** Everything on order, also what is due after the last day. */
  readonly onOrder: number;
  /** Past use on open days, oldest first; and which of the days ahead are open. */
  readonly openUse: Float64Array;
  readonly openAhead: Uint8Array;
  readonly usualUse: UsualUse;
  readonly projected: Projected;
};
export type Forward = {
  readonly today: LocalDay;
  readonly days: number;
  readonly needs: readonly BookedNeed[];
  readonly items: ReadonlyMap<ItemId, Outlook>;
};

/**
 * Every item day by day over `days`: booked jobs on their drop-off day, the part of the usual use that is not
 * booked yet at that lead time on days the shop works, open orders on the day they are due (overdue ones tomorrow).
 */
export function lookForward(db: ReadDb, now: EpochMs, days: number, items: readonly ItemRow[]): Forward {
  const shop = shopOf(db);
  const today = localDayOf(now, shop.zone);
  const midnight = instantOf(today, 0, shop.zone);
  const history = shop.settings.stock.historyDays;
  const needs = bookedNeeds(db, today, days, shop.zone);
  const taker = takers(items);
  const byItem = needsByItem(needs, taker, days);
  const share = shareNotBooked(bookingLeads(db, midnight, history), days);
  const whole = new Float64Array(days).fill(1);
  const used = drawnPerDay(db, midnight, history);
  const coming = comingByItem(db, today, days);
  const weekday = isoWeekday(today) - 1;
  const openBefore = openShopDays(db, addLocalDays(today, -history), history);
  const openAhead = openShopDays(db, today, days);
  const found = new Map<ItemId, Outlook>();
  for (const item of items) {
    const use = used.get(item.id) ?? new Float64Array(0);
    const open = openBefore.subarray(history - use.length);
    const usual = usualUse(use, (((weekday - use.length) % 7) + 7) % 7, open);
    const flows = {
      booked: byItem.get(item.id) ?? new Float64Array(days),
      arrivals: coming.get(item.id)?.byDay ?? new Float64Array(days),
      onOrder: coming.get(item.id)?.total ?? 0,
      ...usualAhead(usual, isBooked(item, taker) ? share : whole, weekday, openAhead),
    };
    const projected = project({ onHand: item.onHand, ...flows });
    found.set(item.id, {
      item,
      openUse: onOpenDays(use, open),
      openAhead,
      usualUse: usual,
      projected,
      ...flows,
    });
  }
  return { today, days, needs, items: found };
}

/**
 * Jobs book its material ahead, be it on this item or on the one that serves it first: either way those jobs' use is
 * counted there already. Of what no job books, all of the usual use is still to come: it can't be counted twice.
 */
function isBooked(item: ItemRow, taker: ReadonlyMap<Material, ItemRow>): boolean {
  return item.material !== null && taker.has(item.material);
}

function usualAhead(
  usual: UsualUse,
  share: Float64Array,
  weekday: number,
  openAhead: Uint8Array,
): { readonly usual: Float64Array; readonly usualVar: Float64Array } {
  const days = openAhead.length;
  const mean = new Float64Array(days);
  const variance = new Float64Array(days);
  if (usual.usedDays === 0) return { usual: mean, usualVar: variance };
  for (let k = 0; k < days; k += 1) {
    if (openAhead[k] === 0) continue;
    const d = (weekday + k) % 7;
    mean[k] = (usual.mean[d] ?? 0) * (share[k] ?? 0);
    variance[k] = (usual.variance[d] ?? 0) * (share[k] ?? 0);
  }
  return { usual: mean, usualVar: variance };
}

/** Each need falls on the most preferred item of its material. What goes round is not used up: pads look for themselves. */
function needsByItem(
  needs: readonly BookedNeed[],
  taker: ReadonlyMap<Material, ItemRow>,
  days: number,
): ReadonlyMap<ItemId, Float64Array> {
  const found = new Map<ItemId, Float64Array>();
  for (const need of needs) {
    const item = taker.get(need.material);
    if (!item || item.reusable === 1) continue;
    let row = found.get(item.id);
    if (!row) {
      row = new Float64Array(days);
      found.set(item.id, row);
    }
    row[need.day] = (row[need.day] ?? 0) + need.amount;
  }
  return found;
}

/** The item that serves each material first. */
export function takers(items: readonly ItemRow[]): ReadonlyMap<Material, ItemRow> {
  const found = new Map<Material, ItemRow>();
  for (const item of items) {
    if (!item.material || item.endedDay) continue;
    const known = found.get(item.material);
    if (!known || item.preference < known.preference) found.set(item.material, item);
  }
  return found;
}
