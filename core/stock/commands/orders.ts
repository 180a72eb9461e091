import type { WriteCtx } from '../../context.ts';
import { nextNumber } from '../../db/sequence.ts';
import { refuse } from '../../shared/errors.ts';
import type { ItemId, PurchaseOrderId, SupplierId } from '../../shared/ids.ts';
import { localDayOf } from '../../shared/time.ts';
import type { LocalDay, Minor } from '../../shared/units.ts';
import { shopOf } from '../../views/shop.ts';
import { supplierDaysOf } from '../../views/stockSuppliers.ts';
import { packPrice } from '../rules/quantity.ts';
import { arrivalDay } from '../rules/supplierDays.ts';
import { dropLater, findLink } from '../store/items.ts';
import {
  findOrder,
  insertOrder,
  insertOrderLine,
  linesOfOrder,
  type OrderLineRecord,
  type OrderRecord,
  setCancelled,
  setDueDay,
  touchOrder,
} from '../store/orders.ts';
import { supplierOf } from './items.ts';
import { itemOf } from './post.ts';

type OrderLineInput = { readonly supplierId: SupplierId; readonly itemId: ItemId; readonly packs: number };
type NewOrder = { readonly id: PurchaseOrderId; readonly number: number };

/**
 * Makes one purchase order per supplier. Packs and price are those of today, price breaks included; the day it is
 * due follows from the supplier's working days.
 * @throws NOT_SOLD_BY when a supplier has no price for an item
 */
export function makeOrders(
  ctx: WriteCtx,
  input: { readonly lines: readonly OrderLineInput[]; readonly note: string },
): { readonly orders: readonly NewOrder[] } {
  const bySupplier = Map.groupBy(input.lines, (line) => line.supplierId);
  return { orders: [...bySupplier].map(([id, lines]) => orderFrom(ctx, id, lines, input.note)) };
}

function orderFrom(
  ctx: WriteCtx,
  supplierId: SupplierId,
  lines: readonly OrderLineInput[],
  note: string,
): NewOrder {
  const supplier = supplierOf(ctx, supplierId);
  const today = localDayOf(ctx.now, shopOf(ctx.db).zone);
  const id = ctx.newId<PurchaseOrderId>();
  const number = nextNumber(ctx.db, 'purchaseOrder');
  insertOrder(ctx.db, {
    id,
    number,
    supplierId,
    orderedDay: today,
    dueDay: arrivalDay(today, supplierDaysOf(ctx.db, supplier)),
    personId: ctx.actor?.personId ?? null,
    note,
  });
  for (const line of lines) {
    const item = itemOf(ctx, line.itemId);
    const link = findLink(ctx.db, supplierId, item.id);
    if (!link) return refuse('NOT_SOLD_BY', { item: item.name, supplier: supplier.name });
    insertOrderLine(ctx.db, {
      id: ctx.newId(),
      orderId: id,
      itemId: item.id,
      packs: line.packs,
      packSize: link.packSize,
      priceMinor: packPrice(line.packs, link.priceMinor, link.breaks) as Minor,
    });
    dropLater(ctx.db, item.id);
  }
  ctx.changed(id, 'lines');
  return { id, number };
}

/** @throws NOT_FOUND when there is no such order */
export function orderOf(ctx: WriteCtx, id: PurchaseOrderId): OrderRecord {
  return findOrder(ctx.db, id) ?? refuse('NOT_FOUND', { what: 'purchaseOrder', id });
}

/** Packs of a line that are still to come. */
export function missing(line: OrderLineRecord): number {
  return Math.max(0, line.packs - line.cancelledPacks - line.receivedPacks);
}

/**
 * Says when the supplier will send what is missing of an ordered line.
 * @throws STALE when the order changed since it was read
 * @throws ORDER_NOT_OPEN when nothing of the line is missing
 * @throws DUE_IS_PAST when the day has gone by
 */
export function expectLine(
  ctx: WriteCtx,
  input: {
    readonly orderId: PurchaseOrderId;
    readonly lineId: string;
    readonly revision: number;
    readonly dueDay: LocalDay;
  },
): null {
  const line = missingLine(ctx, input);
  if (input.dueDay < localDayOf(ctx.now, shopOf(ctx.db).zone))
    refuse('DUE_IS_PAST', { dueDay: input.dueDay });
  setDueDay(ctx.db, line.id, input.dueDay);
  touchOrder(ctx.db, input.orderId);
  ctx.changed(input.orderId, 'dueDay');
  return null;
}

/**
 * Gives up what is still missing of an ordered line.
 * @throws STALE when the order changed since it was read
 * @throws ORDER_NOT_OPEN when nothing of the line is missing
 */
export function cancelOrderLine(
  ctx: WriteCtx,
  input: { readonly orderId: PurchaseOrderId; readonly lineId: string; readonly revision: number },
): null {
  const line = missingLine(ctx, input);
  setCancelled(ctx.db, line.id, line.cancelledPacks + missing(line));
  touchOrder(ctx.db, input.orderId);
  ctx.changed(input.orderId, 'cancelled');
  return null;
}

/** An ordered line of which something is still missing. */
function missingLine(
  ctx: WriteCtx,
  input: { readonly orderId: PurchaseOrderId; readonly lineId: string; readonly revision: number },
): OrderLineRecord {
  const order = orderOf(ctx, input.orderId);
  if (order.revision !== input.revision) refuse('STALE', { what: 'purchaseOrder' });
  const line = linesOfOrder(ctx.db, order.id).find((l) => l.id === input.lineId);
  if (!line) return refuse('NOT_FOUND', { what: 'orderedLine', id: input.lineId });
  return missing(line) === 0 ? refuse('ORDER_NOT_OPEN', { number: order.number }) : line;
}
