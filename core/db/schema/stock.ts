import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { ItemId, JobId, PersonId, PurchaseOrderId, StageId, SupplierId } from '../../shared/ids.ts';
import type { EpochMs, LocalDay, Minor } from '../../shared/units.ts';
import { MOVEMENT_REASONS, PAD_STATES } from '../../shared/views/stock.ts';
import type { PriceBreak } from '../../shared/views/stockItem.ts';
import { BASE_UNITS, type Material } from '../../shared/vocabulary.ts';

const COUNT_REASONS = ['negative', 'cycle', 'full', 'asked'] as const;

/** What lies on a shelf. */
export const stockItem = sqliteTable('stock_item', {
  id: text('id').$type<ItemId>().primaryKey(),
  name: text('name').notNull(),
  material: text('material').$type<Material>(),
  unit: text('base_unit', { enum: BASE_UNITS }).notNull(),
  packSize: integer('pack_size').notNull(),
  packWord: text('pack_word').notNull(),
  place: text('place').notNull(),
  shelfPacks: integer('shelf_packs'),
  sealedLifeDays: integer('sealed_life_days'),
  openedLifeDays: integer('opened_life_days'),
  hazards: text('hazards').notNull(),
  sheet: text('sheet').notNull(),
  barcode: text('barcode').notNull(),
  reusable: integer('reusable', { mode: 'boolean' }).notNull(),
  usesPerLife: integer('uses_per_life'),
  preference: integer('preference').notNull().default(0),
  endedDay: text('ended_day').$type<LocalDay>(),
  revision: integer('revision').notNull().default(1),
});

export const supplier = sqliteTable('supplier', {
  id: text('id').$type<SupplierId>().primaryKey(),
  name: text('name').notNull(),
  email: text('email').notNull(),
  leadDays: integer('lead_days').notNull(),
  openWeekdays: text('open_weekdays', { mode: 'json' }).$type<readonly number[]>().notNull(),
  closedDays: text('closed_days', { mode: 'json' }).$type<readonly LocalDay[]>().notNull(),
  minOrderMinor: integer('min_order_minor').$type<Minor>().notNull(),
  endedDay: text('ended_day').$type<LocalDay>(),
  revision: integer('revision').notNull().default(1),
});

export const supplierItem = sqliteTable(
  'supplier_item',
  {
    supplierId: text('supplier_id').$type<SupplierId>().notNull(),
    itemId: text('item_id').$type<ItemId>().notNull(),
    code: text('code').notNull(),
    packSize: integer('pack_size').notNull(),
    priceMinor: integer('price_minor').$type<Minor>().notNull(),
    breaks: text('breaks', { mode: 'json' }).$type<readonly PriceBreak[]>().notNull(),
    preferred: integer('preferred', { mode: 'boolean' }).notNull(),
    revision: integer('revision').notNull().default(1),
  },
  (t) => [primaryKey({ columns: [t.supplierId, t.itemId] })],
);

/** The ledger. */
export const stockMovement = sqliteTable('stock_movement', {
  id: integer('id').primaryKey(),
  itemId: text('item_id').$type<ItemId>().notNull(),
  qty: integer('qty').notNull(),
  valueMinor: integer('value_minor').$type<Minor>().notNull(),
  reason: text('reason', { enum: MOVEMENT_REASONS }).notNull(),
  jobId: text('job_id').$type<JobId>(),
  stageId: text('stage_id').$type<StageId>(),
  deliveryId: text('delivery_id'),
  correctsId: integer('corrects_id'),
  personId: text('person_id').$type<PersonId>(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
  note: text('note').notNull(),
});

/** The safety data sheet of an item as a file; one stands at a time. */
export const dataSheet = sqliteTable('data_sheet', {
  id: text('id').primaryKey(),
  itemId: text('item_id').$type<ItemId>().notNull(),
  hash: text('hash').notNull(),
  mime: text('mime', { enum: ['application/pdf', 'image/jpeg', 'image/png'] }).notNull(),
  fileName: text('file_name').notNull(),
  addedMs: integer('added_ms').$type<EpochMs>().notNull(),
  personId: text('person_id').$type<PersonId>(),
  removedMs: integer('removed_ms').$type<EpochMs>(),
});

/** What a stage used of a material that the shop keeps no item of. */
export const drawWithoutItem = sqliteTable('draw_without_item', {
  id: integer('id').primaryKey(),
  stageId: text('stage_id').$type<StageId>().notNull(),
  jobId: text('job_id').$type<JobId>().notNull(),
  material: text('material').$type<Material>().notNull(),
  amount: integer('amount').notNull(),
  personId: text('person_id').$type<PersonId>(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
});

/** Such a use that was taken from an item after all, or removed with a reason. */
export const drawSettled = sqliteTable('draw_settled', {
  drawId: integer('draw_id').primaryKey(),
  itemId: text('item_id').$type<ItemId>(),
  why: text('why').notNull(),
  personId: text('person_id').$type<PersonId>(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
});

/** Sum of the ledger per item; only the database's own trigger writes it. */
export const stockLevel = sqliteTable('stock_level', {
  itemId: text('item_id').$type<ItemId>().primaryKey(),
  qty: integer('qty').notNull(),
  valueMinor: integer('value_minor').$type<Minor>().notNull(),
  lastCostQty: integer('last_cost_qty').notNull().default(0),
  lastCostMinor: integer('last_cost_minor')
    .$type<Minor>()
    .notNull()
    .default(0 as Minor),
});

export const padBatch = sqliteTable('pad_batch', {
  id: text('id').primaryKey(),
  itemId: text('item_id').$type<ItemId>().notNull(),
  pieces: integer('pieces').notNull(),
  usesPerLife: integer('uses_per_life').notNull(),
  cameMs: integer('came_ms').$type<EpochMs>().notNull(),
  note: text('note').notNull(),
});

export const padEvent = sqliteTable('pad_event', {
  id: integer('id').primaryKey(),
  batchId: text('batch_id').notNull(),
  fromState: text('from_state', { enum: PAD_STATES }),
  toState: text('to_state', { enum: PAD_STATES }).notNull(),
  pieces: integer('pieces').notNull(),
  used: integer('used', { mode: 'boolean' }).notNull(),
  lost: integer('lost', { mode: 'boolean' }).notNull().default(false),
  jobId: text('job_id').$type<JobId>(),
  stageId: text('stage_id').$type<StageId>(),
  personId: text('person_id').$type<PersonId>(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
  note: text('note').notNull(),
});

/** Sum of pad events per batch and state; only the database's own trigger writes it. */
export const padLevel = sqliteTable(
  'pad_level',
  {
    batchId: text('batch_id').notNull(),
    state: text('state', { enum: PAD_STATES }).notNull(),
    pieces: integer('pieces').notNull(),
    uses: integer('uses').notNull().default(0),
  },
  (t) => [primaryKey({ columns: [t.batchId, t.state] })],
);

export const stockCount = sqliteTable('stock_count', {
  id: text('id').primaryKey(),
  itemId: text('item_id').$type<ItemId>().notNull(),
  why: text('why', { enum: COUNT_REASONS }).notNull(),
  openedMs: integer('opened_ms').$type<EpochMs>().notNull(),
  asOfId: integer('as_of_id'),
  bookQty: integer('book_qty'),
  countedQty: integer('counted_qty'),
  closedMs: integer('closed_ms').$type<EpochMs>(),
  personId: text('person_id').$type<PersonId>(),
});

/** "Not today", said by a person. */
export const orderLater = sqliteTable('order_later', {
  itemId: text('item_id').$type<ItemId>().primaryKey(),
  untilDay: text('until_day').$type<LocalDay>().notNull(),
  personId: text('person_id').$type<PersonId>().notNull(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
});

export const purchaseOrder = sqliteTable('purchase_order', {
  id: text('id').$type<PurchaseOrderId>().primaryKey(),
  number: integer('number').notNull(),
  supplierId: text('supplier_id').$type<SupplierId>().notNull(),
  orderedDay: text('ordered_day').$type<LocalDay>().notNull(),
  dueDay: text('due_day').$type<LocalDay>().notNull(),
  personId: text('person_id').$type<PersonId>(),
  note: text('note').notNull(),
  revision: integer('revision').notNull().default(1),
});

export const purchaseOrderLine = sqliteTable('purchase_order_line', {
  id: text('id').primaryKey(),
  orderId: text('order_id').$type<PurchaseOrderId>().notNull(),
  itemId: text('item_id').$type<ItemId>().notNull(),
  packs: integer('packs').notNull(),
  packSize: integer('pack_size').notNull(),
  priceMinor: integer('price_minor').$type<Minor>().notNull(),
  cancelledPacks: integer('cancelled_packs').notNull().default(0),
  receivedPacks: integer('received_packs').notNull().default(0),
  dueDay: text('due_day').$type<LocalDay>(),
});

export const delivery = sqliteTable('delivery', {
  id: text('id').primaryKey(),
  supplierId: text('supplier_id').$type<SupplierId>().notNull(),
  orderId: text('order_id').$type<PurchaseOrderId>(),
  cameDay: text('came_day').$type<LocalDay>().notNull(),
  cameMs: integer('came_ms').$type<EpochMs>().notNull(),
  personId: text('person_id').$type<PersonId>(),
  note: text('note').notNull(),
});

export const deliveryLine = sqliteTable('delivery_line', {
  id: text('id').primaryKey(),
  deliveryId: text('delivery_id').notNull(),
  lineId: text('line_id'),
  itemId: text('item_id').$type<ItemId>().notNull(),
  packs: integer('packs').notNull(),
  packSize: integer('pack_size').notNull(),
  priceMinor: integer('price_minor').$type<Minor>().notNull(),
  batch: text('batch').notNull(),
  bestBefore: text('best_before').$type<LocalDay>(),
});
