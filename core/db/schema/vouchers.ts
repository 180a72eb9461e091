import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { CustomerId, InvoiceId, PersonId, VoucherId } from '../../shared/ids.ts';
import { VOUCHER_PURPOSES } from '../../shared/settings/billing.ts';
import type { EpochMs, LocalDay, Minor } from '../../shared/units.ts';
import { VOUCHER_ENTRIES } from '../../shared/views/vouchers.ts';

/** Gift vouchers as they were sold. */
export const voucher = sqliteTable('voucher', {
  id: text('id').$type<VoucherId>().primaryKey(),
  number: integer('number').notNull(),
  code: text('code').notNull(),
  purpose: text('purpose', { enum: VOUCHER_PURPOSES }).notNull(),
  valueMinor: integer('value_minor').$type<Minor>().notNull(),
  customerId: text('customer_id').$type<CustomerId>(),
  forName: text('for_name').notNull().default(''),
  paymentId: text('payment_id'),
  invoiceId: text('invoice_id').$type<InvoiceId>(),
  expiresDay: text('expires_day').$type<LocalDay>(),
  lateDay: text('late_day').$type<LocalDay>(),
  soldMs: integer('sold_ms').$type<EpochMs>().notNull(),
  soldDay: text('sold_day').$type<LocalDay>().notNull(),
  soldBy: text('sold_by').$type<PersonId>(),
});

/** What became of each voucher. */
export const voucherEntry = sqliteTable('voucher_entry', {
  seq: integer('seq').primaryKey(),
  voucherId: text('voucher_id').$type<VoucherId>().notNull(),
  kind: text('kind', { enum: VOUCHER_ENTRIES }).notNull(),
  amountMinor: integer('amount_minor').$type<Minor>().notNull(),
  netMinor: integer('net_minor').$type<Minor>().notNull(),
  invoiceId: text('invoice_id').$type<InvoiceId>(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
  localDay: text('local_day').$type<LocalDay>().notNull(),
  byId: text('by_id').$type<PersonId>(),
});
