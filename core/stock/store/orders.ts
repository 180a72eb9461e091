import { eq, sql } from 'drizzle-orm';
import { delivery, deliveryLine, purchaseOrder, purchaseOrderLine } from '../../db/schema/stock.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import type { PurchaseOrderId } from '../../shared/ids.ts';
import type { LocalDay } from '../../shared/units.ts';

export type OrderRecord = typeof purchaseOrder.$inferSelect;
export type OrderLineRecord = typeof purchaseOrderLine.$inferSelect;

export function findOrder(db: ReadDb, id: PurchaseOrderId): OrderRecord | undefined {
  return db.orm.select().from(purchaseOrder).where(eq(purchaseOrder.id, id)).get();
}
export function linesOfOrder(db: ReadDb, id: PurchaseOrderId): readonly OrderLineRecord[] {
  return db.orm.select().from(purchaseOrderLine).where(eq(purchaseOrderLine.orderId, id)).all();
}
export function insertOrder(db: WriteDb, row: typeof purchaseOrder.$inferInsert): void {
  db.orm.insert(purchaseOrder).values(row).run();
}
export function insertOrderLine(db: WriteDb, row: typeof purchaseOrderLine.$inferInsert): void {
  db.orm.insert(purchaseOrderLine).values(row).run();
}
/** Counts packs in on an ordered line. */
export function addReceived(db: WriteDb, lineId: string, packs: number): void {
  db.orm
    .update(purchaseOrderLine)
    .set({ receivedPacks: sql`${purchaseOrderLine.receivedPacks} + ${packs}` })
    .where(eq(purchaseOrderLine.id, lineId))
    .run();
}
export function setCancelled(db: WriteDb, lineId: string, packs: number): void {
  db.orm
    .update(purchaseOrderLine)
    .set({ cancelledPacks: packs })
    .where(eq(purchaseOrderLine.id, lineId))
    .run();
}
/** Says when what is missing of an ordered line is expected. */
export function setDueDay(db: WriteDb, lineId: string, dueDay: LocalDay): void {
  db.orm.update(purchaseOrderLine).set({ dueDay }).where(eq(purchaseOrderLine.id, lineId)).run();
}
/** Counts the order's revision up. */
export function touchOrder(db: WriteDb, id: PurchaseOrderId): void {
  db.orm
    .update(purchaseOrder)
    .set({ revision: sql`${purchaseOrder.revision} + 1` })
    .where(eq(purchaseOrder.id, id))
    .run();
}
export function insertDelivery(db: WriteDb, row: typeof delivery.$inferInsert): void {
  db.orm.insert(delivery).values(row).run();
}
export function insertDeliveryLine(db: WriteDb, row: typeof deliveryLine.$inferInsert): void {
  db.orm.insert(deliveryLine).values(row).run();
}
