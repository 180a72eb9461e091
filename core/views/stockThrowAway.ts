import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { ItemId } from '../shared/ids.ts';
import { addLocalDays } from '../shared/time.ts';
import type { LocalDay, Minor } from '../shared/units.ts';
import type { ContainerView, ThrowAwayView } from '../shared/views/stockContainers.ts';
import type { SentenceValue } from '../shared/views/stockSentence.ts';
import { lotsLeft } from '../stock/rules/containers.ts';
import { EMPTY_BOOK, worthOf } from '../stock/rules/cost.ts';
import { openContainers } from './stockContainers.ts';
import type { ItemRow } from './stockOutlook.ts';

type Lot = {
  readonly itemId: ItemId;
  readonly qty: number;
  readonly batch: string;
  readonly bestBefore: LocalDay | null;
  readonly cameDay: LocalDay;
};
/** Every delivery of the items of which one may be past its day or its sealed life, the oldest first. */
const LOTS = `SELECT l.item_id AS itemId, l.packs * l.pack_size AS qty, l.batch, l.best_before AS bestBefore,
    d.came_day AS cameDay
  FROM delivery_line l JOIN delivery d ON d.id = l.delivery_id
  WHERE l.item_id IN (SELECT item_id FROM delivery_line WHERE best_before < :today
    UNION SELECT id FROM stock_item WHERE sealed_life_days IS NOT NULL)
  ORDER BY d.came_ms, l.rowid`;

/**
 * What is past its life and still counts as on hand: opened containers by their opened life, sealed packs by the day
 * on their delivery, else by the day they came and the sealed life, as far as they are still there when the oldest is
 * used first.
 */
export function toThrowAway(
  db: ReadDb,
  today: LocalDay,
  items: readonly ItemRow[],
): readonly ThrowAwayView[] {
  const open = Map.groupBy(openContainers(db, null), (c) => c.itemId);
  const lots = Map.groupBy(allRows<Lot>(db, LOTS, { today }), (lot) => lot.itemId);
  return items
    .filter((item) => item.reusable === 0)
    .flatMap((item) => {
      const inUse = open.get(item.id) ?? [];
      const sealed = item.onHand - inUse.reduce((sum, c) => sum + c.rest, 0);
      return [
        ...inUse.flatMap((c) => openedPast(item, c, today)),
        ...sealedPast(item, sealed, lots.get(item.id) ?? [], today),
      ];
    });
}

function openedPast(item: ItemRow, c: ContainerView, today: LocalDay): readonly ThrowAwayView[] {
  if (c.throwDay === null || c.throwDay > today || c.rest === 0) return [];
  const kept = { is: 'day', day: addLocalDays(c.throwDay, -1) } as const;
  const opened = { is: 'day', day: c.openedDay } as const;
  return [proposal(item, c.id, c.rest, 'opened', { opened, kept })];
}

function sealedPast(
  item: ItemRow,
  sealed: number,
  lots: readonly Lot[],
  today: LocalDay,
): readonly ThrowAwayView[] {
  const left = lotsLeft(
    sealed,
    lots.map((lot) => lot.qty),
  );
  return lots.flatMap((lot, i) => {
    const amount = left[i] ?? 0;
    const until = lot.bestBefore ?? keptTo(lot, item);
    if (amount === 0 || until === null || until >= today) return [];
    const batch = lot.batch === '' ? 'none' : lot.batch;
    if (lot.bestBefore !== null)
      return [proposal(item, null, amount, 'sealed', { batch, day: { is: 'day', day: until } })];
    const came = { is: 'day', day: lot.cameDay } as const;
    return [proposal(item, null, amount, 'kept', { batch, came, days: item.sealedLifeDays ?? 0 })];
  });
}

/** The last day of the sealed life, as if it began when the packs came: nobody noted a day of their own. */
function keptTo(lot: Lot, { sealedLifeDays }: ItemRow): LocalDay | null {
  return sealedLifeDays === null ? null : addLocalDays(lot.cameDay, sealedLifeDays);
}

const SAYS = {
  opened: 'stock.say.throwOpened',
  sealed: 'stock.say.throwSealed',
  kept: 'stock.say.throwKept',
} as const;

function proposal(
  item: ItemRow,
  containerId: string | null,
  amount: number,
  kind: keyof typeof SAYS,
  values: Readonly<Record<string, SentenceValue>>,
): ThrowAwayView {
  const said = { ...values, item: item.name, amount: { is: 'amount', amount, unit: item.unit } as const };
  return {
    containerId,
    itemId: item.id,
    amount,
    valueMinor: worthOf({ ...EMPTY_BOOK, qty: item.onHand, valueMinor: item.valueMinor }, amount) as Minor,
    sentence: { key: SAYS[kind], values: said },
    why: { key: `stock.why.${kind}`, values },
  };
}
