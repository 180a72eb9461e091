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
  const waiting = orders
    .flatMap((order) => order.lines.map((line) => ({ order, line })))
    .filter(({ line }) => line.itemId === of.item.id && dueOf(line) > 0);
  const next = waiting.sort((a, b) => (a.line.dueDay < b.line.dueDay ? -1 : 1))[0];
  if (!next) return null;
  const { order, line } = next;
  const coming = waiting
    .filter((w) => w.order.id === order.id && w.line.dueDay === line.dueDay)
    .reduce((sum, w) => sum + dueOf(w.line) * w.line.packSize, 0);
  return {
    itemId: of.item.id,
    orderId: order.id,
    orderNumber: order.number,
    late: line.late,
    sentence: {
      key: `stock.say.${line.late ? 'chaseLate' : 'chase'}`,
      values: {
        item: of.item.name,
        coming: { is: 'amount', amount: coming, unit: of.item.unit },
        due: { is: 'day', day: line.dueDay },
        runOutDay: { is: 'day', day: addLocalDays(today, runOut) },
        out: isOut(of.item) ? 'yes' : 'no',
      },
    },
  };
}

/** Packs of a line that are still to come. */
const dueOf = (l: PurchaseOrderLineView): number => l.packs - l.receivedPacks - l.cancelledPacks;
