import { and, eq, sql } from 'drizzle-orm';
import { rate, shop, taxRate } from '../db/schema/shop.ts';
import type { WriteDb } from '../db/types.ts';

type NewShop = typeof shop.$inferInsert;
type NewRate = typeof rate.$inferInsert;
type NewTax = typeof taxRate.$inferInsert;

export function insertShop(db: WriteDb, row: Omit<NewShop, 'id' | 'revision'>): void {
  db.orm
    .insert(shop)
    .values({ ...row, id: 1 })
    .run();
}

/** Changes the shop if nobody has since `revision`; false when somebody has. */
export function updateShop(db: WriteDb, revision: number, fields: Partial<NewShop>): boolean {
  const done = db.orm
    .update(shop)
    .set({ ...fields, revision: sql`${shop.revision} + 1` })
    .where(and(eq(shop.id, 1), eq(shop.revision, revision)))
    .run();
  return done.changes === 1;
}

/** Adds a price, or corrects the one that begins on the same day. Answers the id of the row. */
export function putRate(db: WriteDb, row: NewRate): string {
  const kept = db.orm
    .insert(rate)
    .values(row)
    .onConflictDoUpdate({
      target: [rate.applies, rate.subject, rate.fromDay],
      set: { hourMinor: row.hourMinor, addedMs: row.addedMs },
    })
    .returning({ id: rate.id })
    .get();
  return kept.id;
}

/** Adds a tax rate, or corrects the one of the same code that begins on the same day. */
export function putTax(db: WriteDb, row: NewTax): string {
  const kept = db.orm
    .insert(taxRate)
    .values(row)
    .onConflictDoUpdate({
      target: [taxRate.code, taxRate.fromDay],
      set: {
        name: row.name,
        category: row.category,
        ratePpm: row.ratePpm,
        reason: row.reason,
        addedMs: row.addedMs,
      },
    })
    .returning({ id: taxRate.id })
    .get();
  return kept.id;
}
