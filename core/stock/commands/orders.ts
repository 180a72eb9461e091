import type { WriteCtx } from '../../context.ts';
import { nextNumber } from '../../db/sequence.ts';
import type { ReceiveInput } from '../../shared/catalogue/stockInputs.ts';
import { refuse } from '../../shared/errors.ts';
import type { ItemId, PurchaseOrderId, SupplierId } from '../../shared/ids.ts';
import { localDayOf } from '../../shared/time.ts';
import type { Minor } from '../../shared/units.ts';
import { shopOf } from '../../views/shop.ts';
import { supplierDaysOf } from '../../views/stockSuppliers.ts';
import { packPrice } from '../rules/quantity.ts';
import { arrivalDay } from '../rules/supplierDays.ts';
import { dropLater, findLink, type ItemRecord } from '../store/items.ts';
import {
  addReceived,
  findOrder,
  insertDelivery,
  insertDeliveryLine,
  insertOrder,
  insertOrderLine,
  linesOfOrder,
  type OrderLineRecord,
  type OrderRecord,
  setCancelled,
  touchOrder,
} from '../store/orders.ts';
import { supplierOf } from './items.ts';
import { addPieces } from './pads.ts';
import { itemOf, postIn } from './post.ts';

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

function orderOf(ctx: WriteCtx, id: PurchaseOrderId): OrderRecord {
  return findOrder(ctx.db, id) ?? refuse('NOT_FOUND', { what: 'purchaseOrder', id });
}

function missing(line: OrderLineRecord): number {
  return Math.max(0, line.packs - line.cancelledPacks - line.receivedPacks);
}

/**
 * Books in a delivery, also a part of an order or goods nobody ordered. Prices are those of the delivery note.
 * Returns the items that became dearer than ordered.
 * @throws ABOVE_ORDER when more came than is still due and `acceptMore` is not said
 * @throws OTHER_PACK when the pack differs from the ordered one and `acceptOtherPack` is not said
 * @throws ORDER_NOT_OPEN when nothing of the order is due any more
 * @throws LINE_OF_OTHER_ORDER when line, item and order do not belong together
 */
export function receive(
  ctx: WriteCtx,
  input: ReceiveInput,
): { readonly deliveryId: string; readonly raised: readonly string[] } {
  const supplier = supplierOf(ctx, input.supplierId);
  const order = input.orderId ? orderOf(ctx, input.orderId) : null;
  const due = order ? linesOfOrder(ctx.db, order.id) : [];
  if (order && !due.some((line) => missing(line) > 0)) refuse('ORDER_NOT_OPEN', { number: order.number });
  const deliveryId = ctx.newId<string>();
  insertDelivery(ctx.db, {
    id: deliveryId,
    supplierId: supplier.id,
    orderId: order?.id ?? null,
    cameDay: localDayOf(ctx.now, shopOf(ctx.db).zone),
    cameMs: ctx.now,
    personId: ctx.actor?.personId ?? null,
    note: input.note,
  });
  const raised: string[] = [];
  const came = new Map<string, number>();
  for (const line of input.lines) {
    const item = itemOf(ctx, line.itemId);
    const ordered = line.lineId === null ? null : due.find((d) => d.id === line.lineId);
    if (ordered === undefined || (ordered && ordered.itemId !== item.id))
      return refuse('LINE_OF_OTHER_ORDER', { item: item.name });
    if (ordered) {
      checkAgainst(ordered, came.get(ordered.id) ?? 0, line, item, input);
      came.set(ordered.id, (came.get(ordered.id) ?? 0) + line.packs);
      if (line.priceMinor > ordered.priceMinor) raised.push(item.name);
    }
    bookIn(ctx, deliveryId, line, item);
  }
  if (order) touchOrder(ctx.db, order.id);
  ctx.changed(deliveryId, 'lines');
  return { deliveryId, raised };
}

function checkAgainst(
  ordered: OrderLineRecord,
  already: number,
  line: ReceiveInput['lines'][number],
  item: ItemRecord,
  said: ReceiveInput,
): void {
  if (missing(ordered) - already < line.packs && !said.acceptMore)
    refuse('ABOVE_ORDER', {
      item: item.name,
      ordered: ordered.packs - ordered.cancelledPacks,
      before: ordered.receivedPacks + already,
      now: line.packs,
    });
  if (ordered.packSize !== line.packSize && !said.acceptOtherPack)
    refuse('OTHER_PACK', {
      item: item.name,
      ordered: ordered.packSize,
      came: line.packSize,
      unit: item.unit,
    });
}

function bookIn(
  ctx: WriteCtx,
  deliveryId: string,
  line: ReceiveInput['lines'][number],
  item: ItemRecord,
): void {
  insertDeliveryLine(ctx.db, { id: ctx.newId(), deliveryId, ...line });
  if (line.lineId) addReceived(ctx.db, line.lineId, line.packs);
  const qty = line.packs * line.packSize;
  const because = { reason: 'delivery', deliveryId, note: line.batch } as const;
  postIn(ctx, item.id, qty, line.packs * line.priceMinor, because);
  if (item.reusable) addPieces(ctx, item, qty, line.batch);
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
  const order = orderOf(ctx, input.orderId);
  if (order.revision !== input.revision) refuse('STALE', { what: 'purchaseOrder' });
  const line = linesOfOrder(ctx.db, order.id).find((l) => l.id === input.lineId);
  if (!line) return refuse('NOT_FOUND', { what: 'orderedLine', id: input.lineId });
  if (missing(line) === 0) refuse('ORDER_NOT_OPEN', { number: order.number });
  setCancelled(ctx.db, line.id, line.cancelledPacks + missing(line));
  touchOrder(ctx.db, order.id);
  ctx.changed(order.id, 'cancelled');
  return null;
}
