import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { ItemId, PersonId } from '../../shared/ids.ts';
import { LIST_PRICE_KINDS, type PricedLevel } from '../../shared/listPrices.ts';
import { TAX_CATEGORIES, TAX_CODES, type TaxPart } from '../../shared/tax.ts';
import type { EpochMs, LocalDay, Minor, Ppm } from '../../shared/units.ts';
import { PROTECTIONS, WISHES } from '../../shared/views/estimate.ts';
import { CHARGE_KINDS } from '../../shared/views/shop.ts';
import type { BodyStyle, PanelId, Skill, StageKind } from '../../shared/vocabulary.ts';

/** One row: the shop. */
export const shop = sqliteTable('shop', {
  id: integer('id').primaryKey(),
  name: text('name').notNull(),
  address: text('address').notNull(),
  phone: text('phone').notNull(),
  email: text('email').notNull(),
  taxNumber: text('tax_number').notNull(),
  country: text('country').notNull(),
  zone: text('zone').notNull(),
  currency: text('currency').notNull(),
  locale: text('locale').notNull(),
  filmUnit: text('film_unit', { enum: ['um', 'mil'] }).notNull(),
  volumeUnit: text('volume_unit', { enum: ['ml', 'floz'] }).notNull(),
  lengthUnit: text('length_unit', { enum: ['m', 'ft'] }).notNull(),
  paper: text('paper', { enum: ['A4', 'Letter'] }).notNull(),
  settings: text('settings').notNull(),
  isDemo: integer('is_demo', { mode: 'boolean' }).notNull(),
  demoDay: text('demo_day').$type<LocalDay>(),
  revision: integer('revision').notNull().default(1),
});

/** Dated prices of an attended hour. */
export const rate = sqliteTable('rate', {
  id: text('id').primaryKey(),
  applies: text('applies', { enum: ['all', 'skill', 'stage'] }).notNull(),
  subject: text('subject').$type<Skill | StageKind | ''>().notNull(),
  fromDay: text('from_day').$type<LocalDay>().notNull(),
  hourMinor: integer('hour_minor').$type<Minor>().notNull(),
  addedMs: integer('added_ms').$type<EpochMs>().notNull(),
});

/** Dated rates of each tax. */
export const taxRate = sqliteTable('tax_rate', {
  id: text('id').primaryKey(),
  code: text('code', { enum: TAX_CODES }).notNull(),
  name: text('name').notNull(),
  category: text('category', { enum: TAX_CATEGORIES }).notNull(),
  ratePpm: integer('rate_ppm').$type<Ppm>().notNull(),
  reason: text('reason').notNull(),
  parts: text('parts', { mode: 'json' }).$type<readonly TaxPart[]>().notNull().default([]),
  fromDay: text('from_day').$type<LocalDay>().notNull(),
  addedMs: integer('added_ms').$type<EpochMs>().notNull(),
});

/** Dated minimum and surcharges. */
export const charge = sqliteTable('charge', {
  id: text('id').primaryKey(),
  kind: text('kind', { enum: CHARGE_KINDS }).notNull(),
  amountMinor: integer('amount_minor').$type<Minor>().notNull(),
  sharePpm: integer('share_ppm').$type<Ppm>().notNull(),
  fromDay: text('from_day').$type<LocalDay>().notNull(),
  addedMs: integer('added_ms').$type<EpochMs>().notNull(),
});

/** Dated prices of packages. */
export const packagePrice = sqliteTable('package_price', {
  id: text('id').primaryKey(),
  name: text('name').notNull(),
  wish: text('wish', { enum: WISHES }).notNull(),
  interior: integer('interior', { mode: 'boolean' }).notNull(),
  protection: text('protection', { enum: PROTECTIONS }).notNull(),
  bodies: text('bodies', { mode: 'json' }).$type<readonly BodyStyle[]>().notNull(),
  priceMinor: integer('price_minor').$type<Minor>(),
  fromDay: text('from_day').$type<LocalDay>().notNull(),
  addedMs: integer('added_ms').$type<EpochMs>().notNull(),
});

/** The sign at the head of documents. */
export const shopLogo = sqliteTable('shop_logo', {
  id: text('id').primaryKey(),
  hash: text('hash').notNull(),
  mime: text('mime', { enum: ['image/jpeg', 'image/png'] }).notNull(),
  widthPx: integer('width_px').notNull(),
  heightPx: integer('height_px').notNull(),
  addedMs: integer('added_ms').$type<EpochMs>().notNull(),
  personId: text('person_id').$type<PersonId>(),
  removedMs: integer('removed_ms').$type<EpochMs>(),
});

/** Prices of things and of panels. */
export const listPrice = sqliteTable('list_price', {
  id: text('id').primaryKey(),
  kind: text('kind', { enum: LIST_PRICE_KINDS }).notNull(),
  name: text('name').notNull(),
  level: text('level').$type<PricedLevel | ''>().notNull(),
  panel: text('panel').$type<PanelId | ''>().notNull(),
  priceMinor: integer('price_minor').$type<Minor>(),
  tax: text('tax', { enum: TAX_CODES }).notNull().default('standard'),
  itemId: text('item_id').$type<ItemId>(),
  itemQty: integer('item_qty').notNull().default(0),
  fromDay: text('from_day').$type<LocalDay>().notNull(),
  addedMs: integer('added_ms').$type<EpochMs>().notNull(),
});
