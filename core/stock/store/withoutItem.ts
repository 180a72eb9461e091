import { drawSettled, drawWithoutItem } from '../../db/schema/stock.ts';
import type { WriteDb } from '../../db/types.ts';

/** Keeps what a stage used of a material without an item, so that it is not lost. */
export function addDrawWithoutItem(db: WriteDb, row: Omit<typeof drawWithoutItem.$inferSelect, 'id'>): void {
  db.orm.insert(drawWithoutItem).values(row).run();
}

/** Says what became of such a use. */
export function settleDraw(db: WriteDb, row: typeof drawSettled.$inferSelect): void {
  db.orm.insert(drawSettled).values(row).run();
}
