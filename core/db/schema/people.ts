import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { CustomerId, VehicleId } from '../../shared/ids.ts';
import { PAPER_LANGUAGES } from '../../shared/languages.ts';
import type { EpochMs } from '../../shared/units.ts';
import { BODY_STYLES, PAINT_HARDNESS } from '../../shared/vocabulary.ts';

/** People and firms who bring or pay for vehicles. */
export const customer = sqliteTable('customer', {
  id: text('id').$type<CustomerId>().primaryKey(),
  kind: text('kind', { enum: ['person', 'firm'] }).notNull(),
  name: text('name').notNull(),
  nameKey: text('name_key').notNull().default(''),
  phone: text('phone').notNull(),
  phoneKey: text('phone_key').notNull(),
  email: text('email').notNull(),
  address: text('address').notNull(),
  country: text('country').notNull(),
  taxNumber: text('tax_number').notNull(),
  termsDays: integer('terms_days').notNull().default(0),
  /** Language of papers, '' = the shop's. */
  language: text('locale', { enum: ['', ...PAPER_LANGUAGES] }).notNull(),
  note: text('note').notNull(),
  createdMs: integer('created_ms').$type<EpochMs>().notNull(),
  erasedMs: integer('erased_ms').$type<EpochMs>(),
  revision: integer('revision').notNull().default(1),
});

export const vehicle = sqliteTable('vehicle', {
  id: text('id').$type<VehicleId>().primaryKey(),
  customerId: text('customer_id').$type<CustomerId>().notNull(),
  body: text('body', { enum: BODY_STYLES }).notNull(),
  makeModel: text('make_model').notNull(),
  colour: text('colour').notNull(),
  year: integer('year'),
  plate: text('plate').notNull(),
  plateKey: text('plate_key').notNull(),
  vin: text('vin').notNull(),
  lengthMm: integer('length_mm'),
  widthMm: integer('width_mm'),
  heightMm: integer('height_mm'),
  hardness: text('hardness', { enum: PAINT_HARDNESS }).notNull(),
  note: text('note').notNull(),
  createdMs: integer('created_ms').$type<EpochMs>().notNull(),
  revision: integer('revision').notNull().default(1),
});

/** One row per change of hands. */
export const vehicleKeeper = sqliteTable(
  'vehicle_keeper',
  {
    vehicleId: text('vehicle_id').$type<VehicleId>().notNull(),
    customerId: text('customer_id').$type<CustomerId>().notNull(),
    fromMs: integer('from_ms').$type<EpochMs>().notNull(),
  },
  (table) => [primaryKey({ columns: [table.vehicleId, table.fromMs] })],
);
