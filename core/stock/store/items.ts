import { and, eq, getTableColumns, isNull, ne, sql } from 'drizzle-orm';
import { prepared } from '../../db/prepared.ts';
import { orderLater, stockItem, stockLevel, supplier, supplierItem } from '../../db/schema/stock.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import type { ItemId, SupplierId } from '../../shared/ids.ts';
import type { Material } from '../../shared/vocabulary.ts';

export type ItemRecord = typeof stockItem.$inferSelect;
export type SupplierRecord = typeof supplier.$inferSelect;
export type SupplierItemRecord = typeof supplierItem.$inferSelect;
export type StockedItem = ItemRecord & { readonly onHand: number };
type Patch<T> = Partial<Omit<T, 'id' | 'revision'>>;

const byId = prepared((db) =>
  db.orm
    .select()
    .from(stockItem)
    .where(eq(stockItem.id, sql.placeholder('id')))
    .prepare(),
);
const byBarcode = prepared((db) =>
  db.orm
    .select()
    .from(stockItem)
    .where(and(eq(stockItem.barcode, sql.placeholder('barcode')), ne(stockItem.barcode, '')))
    .prepare(),
);
const byName = prepared((db) =>
  db.orm
    .select()
    .from(stockItem)
    .where(
      and(sql`${stockItem.name} = ${sql.placeholder('name')} COLLATE NOCASE`, isNull(stockItem.endedDay)),
    )
    .prepare(),
);
const byMaterial = prepared((db) =>
  db.orm
    .select({ ...getTableColumns(stockItem), onHand: sql<number>`ifnull(${stockLevel.qty}, 0)` })
    .from(stockItem)
    .leftJoin(stockLevel, eq(stockLevel.itemId, stockItem.id))
    .where(and(eq(stockItem.material, sql.placeholder('material')), isNull(stockItem.endedDay)))
    .prepare(),
);

export function findItem(db: ReadDb, id: ItemId): ItemRecord | undefined {
  return byId(db).get({ id });
}
export function findItemByBarcode(db: ReadDb, barcode: string): ItemRecord | undefined {
  return byBarcode(db).get({ barcode });
}
/** Among the items still kept; upper and lower case are one. */
export function findItemByName(db: ReadDb, name: string): ItemRecord | undefined {
  return byName(db).get({ name });
}
/** Items of a material with what the book says is on hand. */
export function itemsOfMaterial(db: ReadDb, material: Material): readonly StockedItem[] {
  return byMaterial(db).all({ material });
}
/** Every item still kept, by name. */
export function keptItems(db: ReadDb): readonly ItemRecord[] {
  return db.orm.select().from(stockItem).where(isNull(stockItem.endedDay)).orderBy(stockItem.name).all();
}
export function insertItem(db: WriteDb, row: typeof stockItem.$inferInsert): void {
  db.orm.insert(stockItem).values(row).run();
}
export function saveItem(db: WriteDb, id: ItemId, patch: Patch<ItemRecord>): void {
  db.orm
    .update(stockItem)
    .set({ ...patch, revision: sql`${stockItem.revision} + 1` })
    .where(eq(stockItem.id, id))
    .run();
}

export function findSupplier(db: ReadDb, id: SupplierId): SupplierRecord | undefined {
  return db.orm.select().from(supplier).where(eq(supplier.id, id)).get();
}
export function insertSupplier(db: WriteDb, row: typeof supplier.$inferInsert): void {
  db.orm.insert(supplier).values(row).run();
}
export function saveSupplier(db: WriteDb, id: SupplierId, patch: Patch<SupplierRecord>): void {
  db.orm
    .update(supplier)
    .set({ ...patch, revision: sql`${supplier.revision} + 1` })
    .where(eq(supplier.id, id))
    .run();
}

export function findLink(db: ReadDb, supplierId: SupplierId, itemId: ItemId): SupplierItemRecord | undefined {
  return db.orm
    .select()
    .from(supplierItem)
    .where(and(eq(supplierItem.supplierId, supplierId), eq(supplierItem.itemId, itemId)))
    .get();
}
/** Adds or replaces what a supplier asks for an item; a preferred one takes that from the others. */
export function putLink(db: WriteDb, row: typeof supplierItem.$inferInsert): void {
  if (row.preferred)
    db.orm.update(supplierItem).set({ preferred: false }).where(eq(supplierItem.itemId, row.itemId)).run();
  const { code, packSize, priceMinor, breaks, preferred } = row;
  db.orm
    .insert(supplierItem)
    .values(row)
    .onConflictDoUpdate({
      target: [supplierItem.supplierId, supplierItem.itemId],
      set: { code, packSize, priceMinor, breaks, preferred, revision: sql`${supplierItem.revision} + 1` },
    })
    .run();
}

/** Remembers "not today"; the latest answer stands. */
export function putLater(db: WriteDb, row: typeof orderLater.$inferInsert): void {
  const { untilDay, personId, atMs } = row;
  db.orm
    .insert(orderLater)
    .values(row)
    .onConflictDoUpdate({ target: orderLater.itemId, set: { untilDay, personId, atMs } })
    .run();
}
/** An order answers the suggestion, so that an earlier "not today" is forgotten. */
export function dropLater(db: WriteDb, itemId: ItemId): void {
  db.orm.delete(orderLater).where(eq(orderLater.itemId, itemId)).run();
}
