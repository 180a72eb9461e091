import { and, eq, isNull, sql } from 'drizzle-orm';
import { charge, listPrice, packagePrice, rate, shop, shopLogo, taxRate } from '../db/schema/shop.ts';
import type { WriteDb } from '../db/types.ts';
import type { EpochMs } from '../shared/units.ts';

type NewShop = typeof shop.$inferInsert;
type NewRate = typeof rate.$inferInsert;
type NewCharge = typeof charge.$inferInsert;
type NewPackage = typeof packagePrice.$inferInsert;
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
        parts: row.parts ?? [],
        addedMs: row.addedMs,
      },
    })
    .returning({ id: taxRate.id })
    .get();
  return kept.id;
}

/** Adds a charge, or corrects the one of the same kind that begins on the same day. */
export function putCharge(db: WriteDb, row: NewCharge): string {
  const { amountMinor, sharePpm, addedMs } = row;
  const kept = db.orm
    .insert(charge)
    .values(row)
    .onConflictDoUpdate({
      target: [charge.kind, charge.fromDay],
      set: { amountMinor, sharePpm, addedMs },
    })
    .returning({ id: charge.id })
    .get();
  return kept.id;
}

/** Adds a price of a package, or corrects the one of the same name that begins on the same day. */
export function putPackage(db: WriteDb, row: NewPackage): string {
  const { id: _, name: _name, fromDay: _day, ...set } = row;
  const kept = db.orm
    .insert(packagePrice)
    .values(row)
    .onConflictDoUpdate({ target: [packagePrice.name, packagePrice.fromDay], set })
    .returning({ id: packagePrice.id })
    .get();
  return kept.id;
}

/** Adds a price of the list, or corrects the one of the same thing that begins on the same day. */
export function putListPrice(db: WriteDb, row: typeof listPrice.$inferInsert): string {
  const { kind, name, level, panel, fromDay } = listPrice;
  const kept = db.orm
    .insert(listPrice)
    .values(row)
    .onConflictDoUpdate({
      target: [kind, name, level, panel, fromDay],
      set: {
        priceMinor: row.priceMinor ?? null,
        tax: row.tax ?? 'standard',
        itemId: row.itemId ?? null,
        itemQty: row.itemQty ?? 0,
        addedMs: row.addedMs,
      },
    })
    .returning({ id: listPrice.id })
    .get();
  return kept.id;
}

export function insertLogo(db: WriteDb, row: typeof shopLogo.$inferInsert): void {
  db.orm.insert(shopLogo).values(row).run();
}

/** Takes the logo out; false when there is none. */
export function takeLogoOut(db: WriteDb, atMs: EpochMs): boolean {
  const done = db.orm.update(shopLogo).set({ removedMs: atMs }).where(isNull(shopLogo.removedMs)).run();
  return done.changes === 1;
}
