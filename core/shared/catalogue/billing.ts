import { z } from 'zod';
import { billExtra, billLine, isBillable, TOO_MUCH } from '../bill.ts';
import { document, type Entry, read, write } from '../entry.ts';
import type { CustomerId, InvoiceId, JobId, PersonId, QuoteId } from '../ids.ts';
import { QUOTE_BASES } from '../settings/billing.ts';
import { TAX_CODES } from '../tax.ts';
import type { LocalDay, Minor } from '../units.ts';
import {
  CONSENT_WAYS,
  INVOICE_LISTS,
  type InvoiceRow,
  type InvoicesPage,
  type InvoiceView,
  type JobMoney,
  type MoneyDesk,
  OPTION_LETTERS,
  PAYMENT_WAYS,
  type QuoteView,
  SURPLUS_KINDS,
  TAX_BASES,
  type TakenMoney,
  type TaxReport,
} from '../views/billing.ts';
import { localDayInput } from './inputs.ts';

const id = z.string().min(1).max(40);
const jobId = id.transform((v) => v as JobId);
const quoteId = id.transform((v) => v as QuoteId);
const invoiceId = id.transform((v) => v as InvoiceId);
const revision = z.int().min(1);
const money = z
  .int()
  .min(1)
  .max(1_000_000_000_000)
  .transform((v) => v as Minor);
const way = z.enum(PAYMENT_WAYS).exclude(['account']);
const note = z.string().trim().max(400).default('');
const date = z.enum(['ask', 'today', 'lastDay']).default('ask');
const period = { fromDay: localDayInput, toDay: localDayInput };

type Issued = { readonly invoiceId: InvoiceId; readonly number: number; readonly issuedDay: LocalDay };

/** Commands and queries of the billing area. */
export const billingEntries = {
  'billing.readQuote': read<QuoteView>()({
    needs: 'desk',
    about: 'One version of a quote: options, limits, who agreed.',
    input: z.strictObject({ quoteId }),
    listens: ['quotes', 'invoices', 'payments', 'jobs', 'shop', 'customers'],
  }),
  'billing.readJobQuote': read<QuoteView | null>()({
    needs: 'desk',
    about: 'The version of a job’s quote that matters now: the open one, else the accepted one.',
    input: z.strictObject({ jobId }),
    listens: ['quotes', 'invoices', 'payments', 'jobs', 'shop', 'customers'],
  }),
  'billing.quoteEstimates': write<{
    readonly quoteId: QuoteId;
    readonly number: number;
    readonly version: number;
  }>()({
    needs: 'desk',
    about: 'Makes a quote, or its next version, from one to three estimates of a job: options A, B, C.',
    input: z.strictObject({
      jobId,
      estimateIds: z.array(id).min(1).max(3),
      basis: z.enum(QUOTE_BASES).optional(),
      titles: z.array(z.string().trim().min(1).max(80)).max(3).default([]),
      reason: z.string().trim().max(300).default(''),
    }),
    touches: ['quotes', 'jobs'],
  }),
  'billing.sendQuote': write<{ readonly quoteId: QuoteId }>()({
    needs: 'desk',
    about: 'Marks a quote as handed over or sent; the job counts as quoted.',
    input: z.strictObject({ quoteId, revision }),
    touches: ['quotes', 'jobs'],
  }),
  'billing.declineQuote': write<{ readonly quoteId: QuoteId }>()({
    needs: 'desk',
    about: 'The customer said no to a quote.',
    input: z.strictObject({ quoteId, revision }),
    touches: ['quotes'],
  }),
  'billing.acceptQuote': write<{
    readonly jobId: JobId;
    readonly toPayMinor: Minor;
    readonly depositMinor: Minor;
  }>()({
    needs: 'desk',
    about: 'The customer agreed to an option: who, how, when. Its stages become the job’s plan.',
    input: z.strictObject({
      quoteId,
      revision,
      letter: z.enum(OPTION_LETTERS),
      name: z.string().trim().min(1).max(120),
      way: z.enum(CONSENT_WAYS),
      knowingly: z.boolean().default(false),
    }),
    touches: ['quotes', 'jobs', 'plan', 'stock'],
  }),
  'billing.takeDeposit': write<{ readonly receipt: number; readonly invoiceId: InvoiceId | null }>()({
    needs: 'desk',
    about: 'Takes a deposit for a job, as held money or with a prepayment invoice, as the shop has set.',
    input: z.strictObject({ jobId, amountMinor: money, way, note, date }),
    touches: ['payments', 'invoices', 'jobs', 'quotes'],
  }),
  'billing.settleDeposit': write<{
    readonly feeInvoiceId: InvoiceId | null;
    readonly feeMinor: Minor;
    readonly returnedMinor: Minor;
    readonly movedMinor: Minor;
  }>()({
    needs: 'desk',
    about:
      'Ends the deposit of a job that will not be done: kept as a fee, paid back, or moved to another job.',
    input: z.strictObject({
      jobId,
      outcome: z.enum(['kept', 'returned', 'moved']),
      feeMinor: z
        .int()
        .min(0)
        .max(1_000_000_000_000)
        .transform((v) => v as Minor)
        .nullable()
        .default(null),
      feeTax: z.enum(TAX_CODES).default('standard'),
      way,
      toJobId: jobId.nullable().default(null),
      date,
    }),
    touches: ['payments', 'invoices', 'jobs', 'quotes'],
  }),
  'billing.draftInvoice': write<{ readonly invoiceId: InvoiceId }>()({
    needs: 'desk',
    about: 'Drafts a job’s invoice from what was agreed, or by what was done when it was stopped half way.',
    input: z.strictObject({ jobId }),
    touches: ['invoices', 'jobs'],
  }),
  'billing.draftOther': write<{ readonly invoiceId: InvoiceId }>()({
    needs: 'desk',
    about: 'Drafts an invoice of free lines: goods, extra work, a fee; for a job or for none.',
    input: z.strictObject({
      customerId: id.transform((v) => v as CustomerId),
      jobId: jobId.nullable().default(null),
      lines: z
        .array(
          z
            .strictObject({
              text: z.string().trim().min(1).max(300),
              quantity: z.int().min(1).max(1_000_000).default(1),
              priceMinor: money,
              tax: z.enum(TAX_CODES).default('standard'),
            })
            .refine((l) => isBillable(l.quantity, l.priceMinor), TOO_MUCH),
        )
        .min(1)
        .max(100),
    }),
    touches: ['invoices', 'jobs'],
  }),
  'billing.changeDraft': write<{ readonly invoiceId: InvoiceId }>()({
    needs: 'desk',
    about: 'Changes the lines, discounts, order number or note of a draft.',
    input: z.strictObject({
      invoiceId,
      revision,
      lines: z.array(billLine).max(200),
      extras: z.array(billExtra).max(20).default([]),
      orderNumber: z.string().trim().max(60).default(''),
      note: z.string().trim().max(1000).default(''),
    }),
    touches: ['invoices'],
  }),
  'billing.dropDraft': write<{ readonly invoiceId: InvoiceId }>()({
    needs: 'desk',
    about: 'Throws a draft away; it never had a number.',
    input: z.strictObject({ invoiceId, revision }),
    touches: ['invoices', 'jobs'],
  }),
  'billing.issueInvoice': write<Issued>()({
    needs: 'desk',
    about: 'Issues a draft: it gets the next number and never changes again. Deposits held are taken off.',
    input: z.strictObject({ invoiceId, revision, date }),
    touches: ['invoices', 'payments', 'jobs', 'figures'],
  }),
  'billing.creditInvoice': write<Issued>()({
    needs: 'desk',
    about: 'Writes a credit note for all of a document (lines null) or for amounts of its lines.',
    input: z.strictObject({
      invoiceId,
      lines: z
        .array(
          z.strictObject({
            line: z.int().min(0).max(199),
            amountMinor: z
              .int()
              .min(0)
              .max(1_000_000_000_000)
              .transform((v) => v as Minor),
          }),
        )
        .max(200)
        .nullable(),
      reason: z.string().trim().min(1).max(400),
      date,
    }),
    touches: ['invoices', 'payments', 'jobs', 'figures'],
  }),
  'billing.takePayment': write<TakenMoney>()({
    needs: 'desk',
    about:
      'Takes money for one or several invoices; what is above all owed is named a deposit, a tip or a credit.',
    input: z.strictObject({
      invoiceIds: z.array(invoiceId).min(1).max(50),
      amountMinor: money,
      way,
      surplus: z.enum(SURPLUS_KINDS).nullable().default(null),
      tipPersonId: id
        .transform((v) => v as PersonId)
        .nullable()
        .default(null),
      depositJobId: jobId.nullable().default(null),
      note,
    }),
    touches: ['payments', 'invoices', 'jobs', 'figures'],
  }),
  'billing.applyCredit': write<{ readonly owedMinor: Minor }>()({
    needs: 'desk',
    about: 'Lays a customer’s credit on account on an invoice.',
    input: z.strictObject({ invoiceId, amountMinor: money }),
    touches: ['payments', 'invoices', 'jobs'],
  }),
  'billing.refund': write<{ readonly receipt: number }>()({
    needs: 'desk',
    about:
      'Pays back what the shop owes on an invoice, a held deposit (id = job) or a credit (id = customer).',
    input: z.strictObject({
      from: z.enum(['invoice', 'deposit', 'credit']),
      id,
      amountMinor: money,
      way,
      note,
    }),
    touches: ['payments', 'invoices', 'jobs'],
  }),
  'billing.keepAsCredit': write<{ readonly receipt: number }>()({
    needs: 'desk',
    about: 'Keeps what the shop owes on an invoice as a credit on the payer’s account.',
    input: z.strictObject({ invoiceId, amountMinor: money }),
    touches: ['payments', 'invoices', 'jobs'],
  }),
  'billing.remindInvoice': write<{ readonly invoiceId: InvoiceId }>()({
    needs: 'desk',
    about: 'Keeps that a reminder was written.',
    input: z.strictObject({ invoiceId, level: z.int().min(1).max(5) }),
    touches: ['invoices'],
  }),
  'billing.confirmNumber': write<{ readonly next: number }>()({
    needs: 'owner',
    about: 'After a restore, or to begin a series: the number of the last printed document.',
    input: z.strictObject({ lastOnPaper: z.int().min(0).max(1_000_000_000) }),
    touches: ['invoices'],
  }),
  'billing.readInvoice': read<InvoiceView>()({
    needs: 'desk',
    about: 'An invoice, prepayment invoice or credit note with what settled it.',
    input: z.strictObject({ invoiceId }),
    listens: ['invoices', 'payments', 'jobs', 'shop', 'customers'],
  }),
  'billing.listInvoices': read<InvoicesPage>()({
    needs: 'desk',
    about: 'Documents that are drafts, open, overdue, paid, or all; found by number, name or vehicle.',
    input: z.strictObject({
      list: z.enum(INVOICE_LISTS),
      search: z.string().trim().max(120).default(''),
      limit: z.int().min(1).max(500).default(100),
      offset: z.int().min(0).default(0),
    }),
    listens: ['invoices', 'payments'],
  }),
  'billing.readJobInvoices': read<readonly InvoiceRow[]>()({
    needs: 'desk',
    about: 'All documents of a job.',
    input: z.strictObject({ jobId }),
    listens: ['invoices', 'payments', 'jobs'],
  }),
  'billing.readJobMoney': read<JobMoney>()({
    needs: 'desk',
    about: 'Money of one job: quoted, deposit, invoiced, paid, owed.',
    input: z.strictObject({ jobId }),
    listens: ['quotes', 'invoices', 'payments', 'jobs'],
  }),
  'billing.readDesk': read<MoneyDesk>()({
    needs: 'desk',
    about: 'The Money place: owed by age, what to bill, deposits held, quotes waiting, today’s takings.',
    input: z.strictObject({}),
    listens: ['quotes', 'invoices', 'payments', 'jobs'],
  }),
  'billing.readTaxReport': read<TaxReport>()({
    needs: 'owner',
    about: 'Tax by rate of a period, by documents issued or by money received.',
    input: z.strictObject({ ...period, basis: z.enum(TAX_BASES).default('invoice') }),
    listens: ['invoices', 'payments'],
  }),
  'billing.quoteFile': document()({
    needs: 'desk',
    about: 'The quote as a PDF, with what polishing will not fix.',
    input: z.strictObject({ quoteId }),
  }),
  'billing.invoiceFile': document()({
    needs: 'desk',
    about: 'An invoice or credit note as a PDF; a draft says that it is one.',
    input: z.strictObject({ invoiceId }),
  }),
  'billing.ublFile': document()({
    needs: 'desk',
    about: 'An issued invoice or credit note for machines: UBL 2.1 after EN 16931.',
    input: z.strictObject({ invoiceId }),
  }),
  'billing.receiptFile': document()({
    needs: 'desk',
    about: 'A receipt for money taken or paid back.',
    input: z.strictObject({ receipt: z.int().min(1) }),
  }),
  'billing.reminderFile': document()({
    needs: 'desk',
    about: 'A reminder of an invoice that is overdue, as a PDF.',
    input: z.strictObject({ invoiceId, level: z.int().min(1).max(5) }),
  }),
  'billing.emailDraft': document()({
    needs: 'desk',
    about: 'An unsent message with the quote or invoice attached, to open in a mail program.',
    input: z.discriminatedUnion('of', [
      z.strictObject({ of: z.literal('quote'), quoteId }),
      z.strictObject({ of: z.literal('invoice'), invoiceId }),
    ]),
  }),
  'billing.journalFile': document()({
    needs: 'owner',
    about: 'Every booking of a period, double entry, as CSV for the accountant.',
    input: z.strictObject(period),
  }),
} as const satisfies Readonly<Record<string, Entry>>;
