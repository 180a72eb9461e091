import { and, eq, isNull } from 'drizzle-orm';
import { dataSheet } from '../../db/schema/stock.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import type { ItemId } from '../../shared/ids.ts';
import type { EpochMs } from '../../shared/units.ts';

export type SheetRecord = typeof dataSheet.$inferSelect;

const standing = (itemId: ItemId) => and(eq(dataSheet.itemId, itemId), isNull(dataSheet.removedMs));

export function sheetOf(db: ReadDb, itemId: ItemId): SheetRecord | undefined {
  return db.orm.select().from(dataSheet).where(standing(itemId)).get();
}
export function insertSheet(db: WriteDb, row: typeof dataSheet.$inferInsert): void {
  db.orm.insert(dataSheet).values(row).run();
}
/** Takes the sheet that stands out of the item; false when there is none. */
export function takeSheetOut(db: WriteDb, itemId: ItemId, removedMs: EpochMs): boolean {
  return db.orm.update(dataSheet).set({ removedMs }).where(standing(itemId)).run().changes === 1;
}
