import { isOut } from '../shared/stockList.ts';
import { addLocalDays } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import type { ChaseView, PurchaseOrderLineView, PurchaseOrderRow } from '../shared/views/stock.ts';
import type { Outlook } from './stockOutlook.ts';

/**
 * The item's next order that is on its way, if the item runs out before it comes; null when it does not or nothing
 * is on order. What comes on the day itself comes in time.
 */
export function chaseOf(of: Outlook, today: LocalDay, orders: readonly PurchaseOrderRow[]): ChaseView | null {
  const { runOut } = of.projected;
  if (runOut === null || of.onOrder <= 0) return null;
  if (of.arrivals.subarray(0, runOut + 1).some((amount) => amount > 0)) return null;
  const waiting = orders.filter((o) => o.lines.some((l) => l.itemId === of.item.id && dueOf(l) > 0));
  const next = waiting.sort((a, b) => (a.dueDay < b.dueDay ? -1 : 1))[0];
  if (!next) return null;
  const coming = next.lines
    .filter((l) => l.itemId === of.item.id)
    .reduce((sum, l) => sum + dueOf(l) * l.packSize, 0);
  return {
    itemId: of.item.id,
    orderId: next.id,
    orderNumber: next.number,
    late: next.late,
    sentence: {
      key: `stock.say.${next.late ? 'chaseLate' : 'chase'}`,
      values: {
        item: of.item.name,
        coming: { is: 'amount', amount: coming, unit: of.item.unit },
        due: { is: 'day', day: next.dueDay },
        runOutDay: { is: 'day', day: addLocalDays(today, runOut) },
        out: isOut(of.item) ? 'yes' : 'no',
      },
    },
  };
}

/** Packs of a line that are still to come. */
const dueOf = (l: PurchaseOrderLineView): number => l.packs - l.receivedPacks - l.cancelledPacks;
