import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { Bill, BillTotals } from '../../shared/bill.ts';
import { CONSENT_WAYS } from '../../shared/consent.ts';
import type { CustomerId, InvoiceId, JobId, PersonId, QuoteId } from '../../shared/ids.ts';
import { QUOTE_BASES } from '../../shared/settings/billing.ts';
import type { StagePlan } from '../../shared/stagePlan.ts';
import { TAX_CATEGORIES } from '../../shared/tax.ts';
import type { EpochMs, LocalDay, Minor, Ppm } from '../../shared/units.ts';
import {
  type BilledVehicle,
  INVOICE_KINDS,
  OPTION_LETTERS,
  type OptionLetter,
  PAYMENT_KINDS,
  PAYMENT_WAYS,
  type PartyView,
  QUOTE_STATES,
  type SellerView,
} from '../../shared/views/billing.ts';
import type { HoursView, LimitView, PanelPlanView, StageRates } from '../../shared/views/estimate.ts';
import type { BilledBefore } from '../../shared/views/partial.ts';
import type { ChargeShares } from '../../shared/views/shop.ts';
import type { VoucherOff } from '../../shared/views/vouchers.ts';

/** One version of a quote. */
export const quote = sqliteTable('quote', {
  id: text('id').$type<QuoteId>().primaryKey(),
  jobId: text('job_id').$type<JobId>().notNull(),
  number: integer('number').notNull(),
  version: integer('version').notNull(),
  state: text('state', { enum: QUOTE_STATES }).notNull(),
  basis: text('basis', { enum: QUOTE_BASES }).notNull(),
  validUntilDay: text('valid_until_day').$type<LocalDay>().notNull(),
  reason: text('reason').notNull(),
  locale: text('locale').notNull().default(''),
  madeMs: integer('made_ms').$type<EpochMs>().notNull(),
  madeBy: text('made_by').$type<PersonId>(),
  sentMs: integer('sent_ms').$type<EpochMs>(),
  acceptedMs: integer('accepted_ms').$type<EpochMs>(),
  acceptedLetter: text('accepted_letter', { enum: OPTION_LETTERS }),
  acceptedName: text('accepted_name').notNull().default(''),
  acceptedWay: text('accepted_way', { enum: CONSENT_WAYS }),
  revision: integer('revision').notNull().default(1),
});

/** What one option was on the day it was quoted. */
export const quoteOption = sqliteTable(
  'quote_option',
  {
    quoteId: text('quote_id').$type<QuoteId>().notNull(),
    letter: text('letter', { enum: OPTION_LETTERS }).notNull(),
    estimateId: text('estimate_id').notNull(),
    title: text('title').notNull(),
    stages: text('stages', { mode: 'json' }).$type<readonly StagePlan[]>().notNull(),
    bill: text('bill', { mode: 'json' }).$type<Bill>().notNull(),
    totals: text('totals', { mode: 'json' }).$type<BillTotals>().notNull(),
    limits: text('limits', { mode: 'json' }).$type<readonly LimitView[]>().notNull(),
    panels: text('panels', { mode: 'json' }).$type<readonly PanelPlanView[]>().notNull(),
    hours: text('hours', { mode: 'json' }).$type<HoursView>().notNull(),
    chargedMin: integer('charged_min').notNull(),
    rates: text('rates', { mode: 'json' }).$type<StageRates>().notNull(),
    charges: text('charges', { mode: 'json' }).$type<ChargeShares>().notNull(),
    gainPpm: integer('gain_ppm').$type<Ppm>().notNull(),
    toPayMinor: integer('to_pay_minor').$type<Minor>().notNull(),
    depositMinor: integer('deposit_minor').$type<Minor>().notNull(),
  },
  (table) => [primaryKey({ columns: [table.quoteId, table.letter] })],
);

/** Who a document is from and for, as it was printed. */
export type Parties = {
  readonly seller: SellerView;
  readonly customer: PartyView;
  readonly vehicle: BilledVehicle | null;
};

/**
 * Of a partial invoice: the agreed option whose lines it bills, which of the job's partial invoices it is (from 1), what
 * all of it comes to with tax, and those before it that stood when it was issued, each as its credit notes left it.
 */
export type Progress = {
  readonly quoteId: QuoteId;
  readonly letter: OptionLetter;
  readonly nth: number;
  readonly wholeMinor: Minor;
  readonly before: readonly BilledBefore[];
};

/** Invoices, prepayment and partial invoices, credit notes. */
export const invoice = sqliteTable('invoice', {
  id: text('id').$type<InvoiceId>().primaryKey(),
  kind: text('kind', { enum: INVOICE_KINDS }).notNull(),
  number: integer('number'),
  jobId: text('job_id').$type<JobId>(),
  customerId: text('customer_id').$type<CustomerId>().notNull(),
  ofInvoiceId: text('of_invoice_id').$type<InvoiceId>(),
  shareOfId: text('share_of_id').$type<InvoiceId>(),
  bill: text('bill', { mode: 'json' }).$type<Bill>().notNull(),
  totals: text('totals', { mode: 'json' }).$type<BillTotals>().notNull(),
  toPayMinor: integer('to_pay_minor').$type<Minor>().notNull(),
  prepaidMinor: integer('prepaid_minor')
    .$type<Minor>()
    .notNull()
    .default(0 as Minor),
  parties: text('parties', { mode: 'json' }).$type<Parties>(),
  issuedMs: integer('issued_ms').$type<EpochMs>(),
  issuedBy: text('issued_by').$type<PersonId>(),
  issuedDay: text('issued_day').$type<LocalDay>(),
  dueDay: text('due_day').$type<LocalDay>(),
  suppliedDay: text('supplied_day').$type<LocalDay>(),
  orderNumber: text('order_number').notNull().default(''),
  note: text('note').notNull().default(''),
  reason: text('reason').notNull().default(''),
  locale: text('locale').notNull().default(''),
  vouchers: text('vouchers', { mode: 'json' }).$type<readonly VoucherOff[]>().notNull().default([]),
  progress: text('progress', { mode: 'json' }).$type<Progress>(),
  madeMs: integer('made_ms').$type<EpochMs>().notNull(),
  revision: integer('revision').notNull().default(1),
});

/** The jobs of a collective invoice. */
export const billedJob = sqliteTable(
  'billed_job',
  {
    invoiceId: text('invoice_id').$type<InvoiceId>().notNull(),
    jobId: text('job_id').$type<JobId>().notNull(),
  },
  (table) => [primaryKey({ columns: [table.invoiceId, table.jobId] })],
);

/** Prints of issued documents. */
export const paperPrint = sqliteTable('paper_print', {
  seq: integer('seq').primaryKey(),
  invoiceId: text('invoice_id').$type<InvoiceId>().notNull(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
  byId: text('by_id').$type<PersonId>(),
});

/** Tax of issued documents by rate. */
export const invoiceTax = sqliteTable(
  'invoice_tax',
  {
    invoiceId: text('invoice_id').$type<InvoiceId>().notNull(),
    category: text('category', { enum: TAX_CATEGORIES }).notNull(),
    ratePpm: integer('rate_ppm').$type<Ppm>().notNull(),
    name: text('name').notNull(),
    taxableMinor: integer('taxable_minor').$type<Minor>().notNull(),
    taxMinor: integer('tax_minor').$type<Minor>().notNull(),
    netMinor: integer('net_minor').$type<Minor>().notNull(),
  },
  (table) => [primaryKey({ columns: [table.invoiceId, table.category, table.ratePpm, table.name] })],
);

/** Money in and out. */
export const payment = sqliteTable('payment', {
  id: text('id').primaryKey(),
  receipt: integer('receipt').notNull(),
  kind: text('kind', { enum: PAYMENT_KINDS }).notNull(),
  way: text('way', { enum: PAYMENT_WAYS }).notNull(),
  amountMinor: integer('amount_minor').$type<Minor>().notNull(),
  customerId: text('customer_id').$type<CustomerId>(),
  jobId: text('job_id').$type<JobId>(),
  personId: text('person_id').$type<PersonId>(),
  ofPaymentId: text('of_payment_id'),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
  localDay: text('local_day').$type<LocalDay>().notNull(),
  takenBy: text('taken_by').$type<PersonId>(),
  note: text('note').notNull(),
  locale: text('locale').notNull().default(''),
});

/** Which money settles which document. */
export const allocation = sqliteTable('allocation', {
  id: integer('id').primaryKey(),
  paymentId: text('payment_id').notNull(),
  invoiceId: text('invoice_id').$type<InvoiceId>().notNull(),
  amountMinor: integer('amount_minor').$type<Minor>().notNull(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
  localDay: text('local_day').$type<LocalDay>().notNull(),
});

/** Counts of the till. */
export const cashCount = sqliteTable('cash_count', {
  seq: integer('seq').primaryKey(),
  expectedMinor: integer('expected_minor').$type<Minor>().notNull(),
  countedMinor: integer('counted_minor').$type<Minor>().notNull(),
  bankedMinor: integer('banked_minor').$type<Minor>().notNull(),
  reason: text('reason').notNull(),
  lastReceipt: integer('last_receipt').notNull(),
  atMs: integer('at_ms').$type<EpochMs>().notNull(),
  localDay: text('local_day').$type<LocalDay>().notNull(),
  countedBy: text('counted_by').$type<PersonId>(),
});

/** What each job has of an issued document for several, before tax. */
export const collectiveNet = sqliteTable(
  'collective_net',
  {
    invoiceId: text('invoice_id').$type<InvoiceId>().notNull(),
    jobId: text('job_id').$type<JobId>().notNull(),
    netMinor: integer('net_minor').$type<Minor>().notNull(),
  },
  (table) => [primaryKey({ columns: [table.invoiceId, table.jobId] })],
);

/** Prepayment and partial invoices that a final invoice has taken off. */
export const deduction = sqliteTable(
  'deduction',
  {
    prepaymentId: text('prepayment_id').$type<InvoiceId>().notNull(),
    invoiceId: text('invoice_id').$type<InvoiceId>().notNull(),
    takenMinor: integer('taken_minor').$type<Minor>().notNull(),
  },
  (table) => [primaryKey({ columns: [table.prepaymentId, table.invoiceId] })],
);

/** What partial invoices bill of each line of an agreed option. */
export const partialLine = sqliteTable('partial_line', {
  id: integer('id').primaryKey(),
  invoiceId: text('invoice_id').$type<InvoiceId>().notNull(),
  partialId: text('partial_id').$type<InvoiceId>().notNull(),
  quoteId: text('quote_id').$type<QuoteId>().notNull(),
  letter: text('letter', { enum: OPTION_LETTERS }).notNull(),
  line: integer('line').notNull(),
  amountMinor: integer('amount_minor').$type<Minor>().notNull(),
});

export const reminder = sqliteTable(
  'reminder',
  {
    invoiceId: text('invoice_id').$type<InvoiceId>().notNull(),
    level: integer('level').notNull(),
    atMs: integer('at_ms').$type<EpochMs>().notNull(),
    byId: text('by_id').$type<PersonId>(),
  },
  (table) => [primaryKey({ columns: [table.invoiceId, table.level] })],
);

/** One row: whether the next number must be confirmed against the last paper. */
export const issueCheck = sqliteTable('issue_check', {
  id: integer('id').primaryKey(),
  ask: integer('ask', { mode: 'boolean' }).notNull(),
  lastNo: integer('last_no').notNull(),
  readNos: text('read_nos', { mode: 'json' }).$type<readonly number[]>().notNull().default([]),
});
