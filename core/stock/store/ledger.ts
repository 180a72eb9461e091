import { and, desc, eq, gt, inArray, isNull, lt, or, sql } from 'drizzle-orm';
import { prepared } from '../../db/prepared.ts';
import { stockCount, stockLevel, stockMovement } from '../../db/schema/stock.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import type { ItemId } from '../../shared/ids.ts';
import type { EpochMs } from '../../shared/units.ts';

export type MovementRecord = typeof stockMovement.$inferSelect;
export type LevelRecord = typeof stockLevel.$inferSelect;
export type CountRecord = typeof stockCount.$inferSelect;

const p = sql.placeholder;
const insertLine = prepared((db) =>
  db.orm
    .insert(stockMovement)
    .values({
      itemId: p('itemId'),
      qty: p('qty'),
      valueMinor: p('valueMinor'),
      reason: p('reason'),
      jobId: p('jobId'),
      stageId: p('stageId'),
      deliveryId: p('deliveryId'),
      correctsId: p('correctsId'),
      personId: p('personId'),
      atMs: p('atMs'),
      note: p('note'),
    })
    .prepare(),
);
const levelQuery = prepared((db) =>
  db.orm
    .select()
    .from(stockLevel)
    .where(eq(stockLevel.itemId, p('itemId')))
    .prepare(),
);
const lineQuery = prepared((db) =>
  db.orm
    .select()
    .from(stockMovement)
    .where(eq(stockMovement.id, p('id')))
    .prepare(),
);
const correctionsQuery = prepared((db) =>
  db.orm
    .select({
      qty: sql<number>`ifnull(sum(${stockMovement.qty}), 0)`,
      valueMinor: sql<number>`ifnull(sum(${stockMovement.valueMinor}), 0)`,
    })
    .from(stockMovement)
    .where(eq(stockMovement.correctsId, p('id')))
    .prepare(),
);
const openCountQuery = prepared((db) =>
  db.orm
    .select()
    .from(stockCount)
    .where(and(eq(stockCount.itemId, p('itemId')), isNull(stockCount.closedMs)))
    .prepare(),
);

/** Writes a ledger line and returns its number. The database keeps the level by itself. */
export function addLine(db: WriteDb, line: Omit<MovementRecord, 'id'>): number {
  return Number(insertLine(db).run(line).lastInsertRowid);
}
export function findLine(db: ReadDb, id: number): MovementRecord | undefined {
  return lineQuery(db).get({ id });
}
/** Book amount and value of an item; undefined before its first movement. */
export function levelOf(db: ReadDb, itemId: ItemId): LevelRecord | undefined {
  return levelQuery(db).get({ itemId });
}
/** Amount and value of the lines that correct a draw, signed as in the ledger. */
export function correctionsOf(db: ReadDb, id: number): { readonly qty: number; readonly valueMinor: number } {
  return correctionsQuery(db).get({ id }) ?? { qty: 0, valueMinor: 0 };
}
/** Number of the latest ledger line of an item; 0 = none yet. */
export function latestLine(db: ReadDb, itemId: ItemId): number {
  const row = db.orm
    .select({ id: stockMovement.id })
    .from(stockMovement)
    .where(eq(stockMovement.itemId, itemId))
    .orderBy(desc(stockMovement.id))
    .limit(1)
    .get();
  return row?.id ?? 0;
}
/** Number of an item's last ledger line before an instant; 0 = none. */
export function lineBefore(db: ReadDb, itemId: ItemId, atMs: EpochMs): number {
  const row = db.orm
    .select({ id: sql<number>`ifnull(max(${stockMovement.id}), 0)` })
    .from(stockMovement)
    .where(and(eq(stockMovement.itemId, itemId), lt(stockMovement.atMs, atMs)))
    .get();
  return row?.id ?? 0;
}
/** All that ever came in of an item: deliveries and what was found on the shelf. */
export function everCame(db: ReadDb, itemId: ItemId): number {
  const row = db.orm
    .select({ qty: sql<number>`ifnull(sum(${stockMovement.qty}), 0)` })
    .from(stockMovement)
    .where(
      and(
        eq(stockMovement.itemId, itemId),
        gt(stockMovement.qty, 0),
        inArray(stockMovement.reason, ['open', 'delivery', 'count', 'found']),
      ),
    )
    .get();
  return row?.qty ?? 0;
}
/** Book amount of an item as it stood after a ledger line. */
export function bookAt(db: ReadDb, itemId: ItemId, upToId: number): number {
  const row = db.orm
    .select({ qty: sql<number>`ifnull(sum(${stockMovement.qty}), 0)` })
    .from(stockMovement)
    .where(and(eq(stockMovement.itemId, itemId), sql`${stockMovement.id} <= ${upToId}`))
    .get();
  return row?.qty ?? 0;
}

/**
 * Whether the item was counted since this ledger line: beside a later one, or beside it with a difference, which is a
 * later line itself.
 */
export function countedSince(db: ReadDb, itemId: ItemId, asOfId: number): boolean {
  const { asOfId: beside, bookQty, countedQty } = stockCount;
  const differed = and(eq(beside, asOfId), sql`${countedQty} <> ${bookQty}`);
  const row = db.orm
    .select({ id: stockCount.id })
    .from(stockCount)
    .where(and(eq(stockCount.itemId, itemId), or(gt(beside, asOfId), differed)))
    .limit(1)
    .get();
  return row !== undefined;
}

export function openCountOf(db: ReadDb, itemId: ItemId): CountRecord | undefined {
  return openCountQuery(db).get({ itemId });
}
/** Opens a count unless one is open; true when it did. */
export function openCount(
  db: WriteDb,
  row: {
    readonly id: string;
    readonly itemId: ItemId;
    readonly why: CountRecord['why'];
    readonly openedMs: EpochMs;
  },
): boolean {
  if (openCountOf(db, row.itemId)) return false;
  db.orm.insert(stockCount).values(row).run();
  return true;
}
/** Keeps a finished count: it closes the open one, or stands by itself. */
export function closeCount(db: WriteDb, done: Omit<CountRecord, 'why' | 'openedMs'>): void {
  const open = openCountOf(db, done.itemId);
  const { asOfId, bookQty, countedQty, closedMs, personId } = done;
  const set = { asOfId, bookQty, countedQty, closedMs, personId };
  if (open) db.orm.update(stockCount).set(set).where(eq(stockCount.id, open.id)).run();
  else
    db.orm
      .insert(stockCount)
      .values({
        id: done.id,
        itemId: done.itemId,
        why: 'cycle',
        openedMs: closedMs ?? (0 as EpochMs),
        ...set,
      })
      .run();
}
