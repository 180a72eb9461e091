import type { WriteCtx } from '../../context.ts';
import type { ReceiveInput } from '../../shared/catalogue/stockInputs.ts';
import { refuse } from '../../shared/errors.ts';
import { localDayOf } from '../../shared/time.ts';
import { shopOf } from '../../views/shop.ts';
import { supplierDaysOf } from '../../views/stockSuppliers.ts';
import { inOrderedPacks, isDearer } from '../rules/deliveries.ts';
import { isUnlikelyPrice, type PackPrice } from '../rules/slips.ts';
import { arrivalDay, type SupplierDays } from '../rules/supplierDays.ts';
import { findLink, type ItemRecord } from '../store/items.ts';
import {
  addReceived,
  insertDelivery,
  insertDeliveryLine,
  linesOfOrder,
  type OrderLineRecord,
  type OrderRecord,
  setDueDay,
  touchOrder,
} from '../store/orders.ts';
import { supplierOf } from './items.ts';
import { missing, orderOf } from './orders.ts';
import { addPieces } from './pads.ts';
import { itemOf, postIn } from './post.ts';

/**
 * Books in a delivery, also a part of an order or goods nobody ordered. Prices are those of the delivery note.
 * Returns the items that became dearer than ordered.
 * @throws ABOVE_ORDER when more came than is still due and `acceptMore` is not said of the item
 * @throws OTHER_PACK when the pack differs from the ordered one and `acceptOtherPack` is not said
 * @throws PRICE_UNLIKELY when a price is far from what was agreed and `acceptPrice` is not said
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
  const raised = bookLines(ctx, deliveryId, due, input);
  if (order) {
    expectTheRest(ctx, order, supplierDaysOf(ctx.db, supplier));
    touchOrder(ctx.db, order.id);
  }
  ctx.changed(deliveryId, 'lines');
  return { deliveryId, raised };
}

/** Books in line by line, each held against what was ordered; returns what became dearer. */
function bookLines(
  ctx: WriteCtx,
  deliveryId: string,
  due: readonly OrderLineRecord[],
  input: ReceiveInput,
): readonly string[] {
  const raised: string[] = [];
  const came = new Map<string, number>();
  for (const line of input.lines) {
    const item = itemOf(ctx, line.itemId);
    const ordered = line.lineId === null ? null : due.find((d) => d.id === line.lineId);
    if (ordered === undefined || (ordered && ordered.itemId !== item.id))
      return refuse('LINE_OF_OTHER_ORDER', { item: item.name });
    if (ordered) {
      const already = came.get(ordered.id) ?? 0;
      const packs = inOrderedPacks(line.packs * line.packSize, ordered.packSize);
      checkAgainst(ordered, { already, packs }, line, item, input);
      came.set(ordered.id, already + packs);
      addReceived(ctx.db, ordered.id, packs);
      if (isDearer(line, ordered)) raised.push(item.name);
    }
    checkPrice(item, line, ordered ?? findLink(ctx.db, input.supplierId, item.id), input);
    bookIn(ctx, deliveryId, line, item);
  }
  return raised;
}

/**
 * What a delivery lacked of what was due by now is expected as if it were ordered anew today, until somebody says
 * better: the day that has passed says nothing any more.
 */
function expectTheRest(ctx: WriteCtx, order: OrderRecord, days: SupplierDays): void {
  const today = localDayOf(ctx.now, shopOf(ctx.db).zone);
  for (const line of linesOfOrder(ctx.db, order.id))
    if (missing(line) > 0 && (line.dueDay ?? order.dueDay) <= today)
      setDueDay(ctx.db, line.id, arrivalDay(today, days));
}

/** Whether a yes is one to this item: each is asked about by itself. */
function agrees(yes: ReceiveInput['acceptPrice'], item: ItemRecord): boolean {
  return typeof yes === 'boolean' ? yes : yes.includes(item.id);
}

/** What came in packs counted with before, and of this line, in packs as ordered. */
type CountedPacks = { readonly already: number; readonly packs: number };

function checkAgainst(
  ordered: OrderLineRecord,
  { already, packs }: CountedPacks,
  line: ReceiveInput['lines'][number],
  item: ItemRecord,
  said: ReceiveInput,
): void {
  if (missing(ordered) - already < packs && !agrees(said.acceptMore, item))
    refuse('ABOVE_ORDER', {
      item: item.name,
      ordered: ordered.packs - ordered.cancelledPacks,
      before: ordered.receivedPacks + already,
      now: packs,
    });
  if (ordered.packSize !== line.packSize && !agrees(said.acceptOtherPack, item))
    refuse('OTHER_PACK', {
      item: item.name,
      ordered: ordered.packSize,
      came: line.packSize,
      unit: item.unit,
      counts: packs,
      due: Math.max(0, missing(ordered) - already),
    });
}

/** As it was ordered, else as this supplier sells it; of goods without either any price is new. */
function checkPrice(
  item: ItemRecord,
  came: PackPrice,
  agreed: PackPrice | null | undefined,
  said: ReceiveInput,
): void {
  if (!agreed || agrees(said.acceptPrice, item) || !isUnlikelyPrice(agreed, came)) return;
  const agreedMinor = Math.round((agreed.priceMinor * came.packSize) / agreed.packSize);
  refuse('PRICE_UNLIKELY', { item: item.name, agreedMinor, cameMinor: came.priceMinor });
}

function bookIn(
  ctx: WriteCtx,
  deliveryId: string,
  line: ReceiveInput['lines'][number],
  item: ItemRecord,
): void {
  insertDeliveryLine(ctx.db, { id: ctx.newId(), deliveryId, ...line });
  const qty = line.packs * line.packSize;
  const because = { reason: 'delivery', deliveryId, note: line.batch } as const;
  postIn(ctx, item.id, qty, line.packs * line.priceMinor, because);
  if (item.reusable) addPieces(ctx, item, qty, line.batch);
}
