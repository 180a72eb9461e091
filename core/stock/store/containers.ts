import { eq } from 'drizzle-orm';
import { containerReading, stockContainer } from '../../db/schema/stockContainers.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import type { EpochMs } from '../../shared/units.ts';
import type { ClosedAs } from '../../shared/views/stockContainers.ts';

export type ContainerRecord = typeof stockContainer.$inferSelect;

export function findContainer(db: ReadDb, id: string): ContainerRecord | undefined {
  return db.orm.select().from(stockContainer).where(eq(stockContainer.id, id)).get();
}
export function insertContainer(db: WriteDb, row: typeof stockContainer.$inferInsert): void {
  db.orm.insert(stockContainer).values(row).run();
}
export function closeContainerRow(db: WriteDb, id: string, closedAs: ClosedAs, closedMs: EpochMs): void {
  db.orm.update(stockContainer).set({ closedAs, closedMs }).where(eq(stockContainer.id, id)).run();
}
/** Keeps what was left in a container beside a line of the ledger. */
export function addReading(db: WriteDb, row: Omit<typeof containerReading.$inferInsert, 'id'>): void {
  db.orm.insert(containerReading).values(row).run();
}
