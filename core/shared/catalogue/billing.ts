import { z } from 'zod';
import { billExtra, billLine, isBillable, TOO_MUCH } from '../bill.ts';
import { CONSENT_WAYS } from '../consent.ts';
import { type Entry, write } from '../entry.ts';
import type { CustomerId, InvoiceId, JobId, PersonId, QuoteId } from '../ids.ts';
import { QUOTE_BASES } from '../settings/billing.ts';
import { TAX_CODES } from '../tax.ts';
import type { LocalDay, Minor } from '../units.ts';
import { OPTION_LETTERS, SURPLUS_KINDS } from '../views/billing.ts';
import type { TakenMoney } from '../views/billingReports.ts';
import { epochMinInput } from './baysInputs.ts';
import {
  amount,
  date,
  id,
  invoiceId,
  jobId,
  money,
  note,
  quotedThing,
  quoteId,
  revision,
  way,
} from './billingInputs.ts';
import { billingPartial } from './billingPartial.ts';
import { billingReads } from './billingReads.ts';

type Issued = { readonly invoiceId: InvoiceId; readonly number: number; readonly issuedDay: LocalDay };

/** Commands and queries of the billing area. */
export const billingEntries = {
  ...billingReads,
  ...billingPartial,
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
      rush: z.boolean().default(false),
      afterHours: z.boolean().default(false),
      packageIds: z.array(id.nullable()).max(3).default([]),
      byPanel: z.array(z.boolean()).max(3).default([]),
      things: z.array(z.array(quotedThing).max(50)).max(3).default([]),
      manyThings: z.boolean().default(false),
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
    about:
      'The customer agreed to an option: who, how, when. Its stages become the job’s plan; a booked pick-up moves only where they agreed to another with it.',
    input: z.strictObject({
      quoteId,
      revision,
      letter: z.enum(OPTION_LETTERS),
      name: z.string().trim().min(1).max(120),
      way: z.enum(CONSENT_WAYS),
      knowingly: z.boolean().default(false),
      /** The pick-up of a booked car that they agreed to with these hours; left out = the booked one stays. */
      pickUpMin: epochMinInput.optional(),
    }),
    touches: ['quotes', 'jobs', 'plan', 'stock', 'figures'],
  }),
  'billing.takeDeposit': write<{ readonly receipt: number; readonly invoiceId: InvoiceId | null }>()({
    needs: 'desk',
    about: 'Takes a deposit for a job, as held money or with a prepayment invoice, as the shop has set.',
    input: z.strictObject({
      ...{ jobId, amountMinor: money, way, note, date },
      aboveQuote: z.boolean().default(false),
    }),
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
  'billing.draftCollective': write<{ readonly invoiceId: InvoiceId }>()({
    needs: 'desk',
    about: 'Drafts one invoice for several jobs of one payer, each with its order number.',
    input: z.strictObject({
      customerId: id.transform((v) => v as CustomerId),
      jobs: z
        .array(z.strictObject({ jobId, orderNumber: z.string().trim().max(60).default('') }))
        .min(1)
        .max(100),
    }),
    touches: ['invoices', 'jobs'],
  }),
  'billing.notePrint': write<{ readonly times: number }>()({
    needs: 'desk',
    about:
      'Keeps that an issued document was printed, saved or sent, who and when; printed again it says so.',
    input: z.strictObject({ invoiceId }),
    touches: ['invoices'],
  }),
  'billing.issueInvoice': write<Issued>()({
    needs: 'desk',
    about: 'Issues a draft: it gets the next number and never changes again. Deposits held are taken off.',
    input: z.strictObject({ invoiceId, revision, date, aheadOfWork: z.boolean().default(false) }),
    touches: ['invoices', 'payments', 'jobs', 'figures'],
  }),
  'billing.creditInvoice': write<Issued>()({
    needs: 'desk',
    about:
      'Writes a credit note for all of a document that earlier ones left (lines null), or for amounts of its lines.',
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
  'billing.countCash': write<{ readonly leftMinor: Minor }>()({
    needs: 'desk',
    about: 'Keeps a count of the till: expected, counted, taken to the bank; a difference with its reason.',
    input: z.strictObject({
      expectedMinor: z.int().transform((v) => v as Minor),
      countedMinor: amount,
      bankedMinor: amount.default(0 as Minor),
      opening: z.strictObject({ floatMinor: amount, bankedMinor: amount }).nullable().default(null),
      reason: z.string().trim().max(300).default(''),
    }),
    touches: ['payments'],
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
    about:
      'After a restore, a gap that was found, or to begin a series: the number of the last printed document.',
    input: z.strictObject({ lastOnPaper: z.int().min(0).max(1_000_000_000) }),
    touches: ['invoices'],
  }),
} as const satisfies Readonly<Record<string, Entry>>;
