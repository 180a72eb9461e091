import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { ItemId, PersonId } from '../../shared/ids.ts';
import type { EpochMs, LocalDay } from '../../shared/units.ts';
import { CLOSED_AS, READ_HOW } from '../../shared/views/stockContainers.ts';

/** A bottle, tub or roll that was opened. */
export const stockContainer = sqliteTable('stock_container', {
  id: text('id').primaryKey(),
  itemId: text('item_id').$type<ItemId>().notNull(),
  holds: integer('holds').notNull(),
  batch: text('batch').notNull(),
  openedDay: text('opened_day').$type<LocalDay>().notNull(),
  openedMs: integer('opened_ms').$type<EpochMs>().notNull(),
  closedMs: integer('closed_ms').$type<EpochMs>(),
  closedAs: text('closed_as', { enum: CLOSED_AS }),
});

/** What was left in it; the latest counts. */
export const containerReading = sqliteTable('container_reading', {
  id: integer('id').primaryKey(),
  containerId: text('container_id').notNull(),
  asOfId: integer('as_of_id').notNull(),
  rest: integer('rest').notNull(),
  how: text('how', { enum: READ_HOW }).notNull(),
  tareMg: integer('tare_mg'),
  gramsPerLitre: integer('grams_per_litre'),
  personId: text('person_id').$type<PersonId>(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
});
