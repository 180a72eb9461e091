import { afterEach, beforeEach, expect } from 'vitest';
import { DomainError } from '#core/shared/errors.ts';
import type { ItemId, JobId, StageId, SupplierId } from '#core/shared/ids.ts';
import type { StockBoard } from '#core/shared/views/stock.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

/** A shop with its shelf for each test of a file; after each the book is held against the ledger. */
export type ShelfShop = { shop: TestShop; shelf: Shelf; board(): Promise<StockBoard> };

export function shelfShop(): ShelfShop {
  const on = { board: () => on.shop.read('stock.showBoard', {}) } as ShelfShop;
  beforeEach(() => {
    on.shop = openTestShop();
    on.shelf = fillShelf(on.shop);
  });
  afterEach(() => {
    expect(audit(on.shop)).toEqual([]);
    on.shop.close();
  });
  return on;
}

/** The code a command is refused with, or `none`. */
export function refusal(run: () => unknown): string {
  try {
    run();
  } catch (error) {
    if (error instanceof DomainError) return error.code;
    throw error;
  }
  return 'none';
}

/** A bottle, clay, pads and two suppliers of our own invention. */
export type Shelf = {
  readonly compound: ItemId;
  readonly clay: ItemId;
  readonly pads: ItemId;
  readonly kestle: SupplierId;
};

export function fillShelf(shop: TestShop): Shelf {
  const { itemId: compound } = shop.write('stock.addItem', {
    name: 'Heavy-cut compound',
    material: 'heavyCutCompound',
    unit: 'ul',
    packSize: 1_000_000,
    packWord: 'bottle',
    place: 'B2',
    barcode: '4099999000017',
    opening: { amount: 620_000, valueMinor: 2554 },
  });
  const { itemId: clay } = shop.write('stock.addItem', {
    name: 'Clay',
    material: 'clayBar',
    unit: 'mg',
    packSize: 200_000,
    opening: { amount: 310_000, valueMinor: 1519 },
  });
  const { itemId: pads } = shop.write('stock.addItem', {
    name: 'Cutting pads, 150 mm',
    material: 'cuttingPad',
    unit: 'piece',
    packSize: 2,
    reusable: true,
    usesPerLife: 20,
    opening: { amount: 9, valueMinor: 9900 },
  });
  const { supplierId: kestle } = shop.write('stock.addSupplier', { name: 'Kestle & Rowe', leadDays: 2 });
  for (const [itemId, packSize, priceMinor] of [
    [compound, 1_000_000, 4120],
    [clay, 200_000, 980],
    [pads, 2, 2200],
  ] as const)
    shop.write('stock.linkSupplier', { supplierId: kestle, itemId, packSize, priceMinor });
  return { compound, clay, pads, kestle };
}

let next = 100;
const idOf = (n: number): string => String(n).padStart(20, '0');

/** A booked job with one cut stage that needs so much of each material, straight into the file. */
export function bookJob(
  shop: TestShop,
  day: string,
  needs: Readonly<Record<string, number>>,
): { readonly jobId: JobId; readonly stageId: StageId } {
  next += 10;
  const [customer, vehicle, job, stage] = [idOf(next), idOf(next + 1), idOf(next + 2), idOf(next + 3)];
  const run = (sql: string, ...values: unknown[]): void => void shop.db.raw.prepare(sql).run(...values);
  run(
    `INSERT INTO customer (id, kind, name, phone, phone_key, email, address, country, tax_number, locale, note, created_ms)
     VALUES (?, 'person', 'Marit Vane', '', '', '', '', '', '', '', '', 0)`,
    customer,
  );
  run(
    `INSERT INTO vehicle (id, customer_id, body, make_model, colour, plate, plate_key, vin, hardness, note, created_ms)
     VALUES (?, ?, 'saloon', 'Velloy Merrin', 'deep blue', '', '', '', 'medium', '', 0)`,
    vehicle,
    customer,
  );
  run(
    `INSERT INTO job (id, number, customer_id, vehicle_id, purpose, state, wish, drop_off_min, created_ms)
     VALUES (?, ?, ?, ?, 'correction', 'booked', '', ?, 0)`,
    job,
    next,
    customer,
    vehicle,
    Date.parse(`${day}T07:00:00Z`) / 60_000,
  );
  run(
    `INSERT INTO job_stage (id, job_id, seq, kind, state, panels, estimated_min, p20_min, p50_min, p80_min, p95_min, mu, sigma, dwell_min, bay_kinds, skill, crew, splittable, note)
     VALUES (?, ?, 0, 'cut', 'planned', '[]', 60, 50, 60, 70, 80, 4, 0.2, 0, '["correction"]', 'correction', 1, 1, '')`,
    stage,
    job,
  );
  for (const [material, amount] of Object.entries(needs))
    run('INSERT INTO job_material (stage_id, material, amount) VALUES (?, ?, ?)', stage, material, amount);
  return { jobId: job as JobId, stageId: stage as StageId };
}

/** Book against ledger, and round against book, over the whole file. */
export function audit(shop: TestShop): unknown[] {
  return shop.db.raw
    .prepare(
      `SELECT i.name FROM stock_item i LEFT JOIN stock_level l ON l.item_id = i.id
       LEFT JOIN (SELECT item_id, sum(qty) AS q, sum(value_minor) AS v FROM stock_movement GROUP BY item_id) m ON m.item_id = i.id
       WHERE ifnull(l.qty, 0) <> ifnull(m.q, 0) OR ifnull(l.value_minor, 0) <> ifnull(m.v, 0)
          OR (i.reusable = 1 AND ifnull(l.qty, 0) <> (SELECT ifnull(sum(p.pieces), 0) FROM pad_level p
              JOIN pad_batch b ON b.id = p.batch_id WHERE b.item_id = i.id AND p.state <> 'retired'))`,
    )
    .pluck()
    .all();
}
