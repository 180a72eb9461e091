import { z } from 'zod';
import { document, type Entry, read } from '../entry.ts';
import {
  INVOICE_LISTS,
  type InvoiceRow,
  type InvoicesPage,
  type InvoiceView,
  type QuoteView,
} from '../views/billing.ts';
import { type JobMoney, TAX_BASES, type TaxReport } from '../views/billingReports.ts';
import type { MoneyDesk } from '../views/moneyDesk.ts';
import type { StatementView, TipReport } from '../views/statement.ts';
import type { TillView } from '../views/till.ts';
import { customerId, invoiceId, jobId, period, quoteId } from './billingInputs.ts';

/** The dates of a car that is booked hang on all the others. */
const QUOTE_HANGS_ON = [
  ...(['quotes', 'invoices', 'payments', 'jobs', 'shop', 'customers'] as const),
  ...(['plan', 'bays', 'work', 'people'] as const),
] as const;

/** What is asked of quotes, invoices and payments, and their papers. */
export const billingReads = {
  'billing.readQuote': read<QuoteView>()({
    needs: 'desk',
    about: 'One version of a quote: options, limits, who agreed.',
    input: z.strictObject({ quoteId }),
    listens: [...QUOTE_HANGS_ON],
  }),
  'billing.readJobQuote': read<QuoteView | null>()({
    needs: 'desk',
    about: 'The version of a job’s quote that matters now: the open one, else the accepted one.',
    input: z.strictObject({ jobId }),
    listens: [...QUOTE_HANGS_ON],
  }),
  'billing.readInvoice': read<InvoiceView>()({
    needs: 'desk',
    about: 'An invoice, prepayment or partial invoice, or credit note with what settled it.',
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
  'billing.readTill': read<TillView>()({
    needs: 'desk',
    about: 'What should lie in the till now, and its last counts.',
    input: z.strictObject({}),
    listens: ['payments'],
  }),
  'billing.readTaxReport': read<TaxReport>()({
    needs: 'owner',
    about: 'Tax by rate of a period, by documents issued or by money received.',
    input: z.strictObject({ ...period, basis: z.enum(TAX_BASES).default('invoice') }),
    listens: ['invoices', 'payments'],
  }),
  'billing.readStatement': read<StatementView>()({
    needs: 'desk',
    about: 'A customer’s account over a period: where it stood, what changed it, where it stands.',
    input: z.strictObject({ customerId, ...period }),
    listens: ['invoices', 'payments', 'customers', 'shop'],
  }),
  'billing.readTips': read<TipReport>()({
    needs: 'owner',
    about: 'Tips of a period by person.',
    input: z.strictObject(period),
    listens: ['payments'],
  }),
  'billing.statementFile': document()({
    needs: 'desk',
    about: 'A customer’s statement of account over a period, as a PDF.',
    input: z.strictObject({ customerId, ...period }),
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
  'billing.yearFile': document()({
    needs: 'owner',
    about:
      'All that an accountant asks for of a period in one ZIP: journal, tax, open items, stock, proof, papers.',
    input: z.strictObject(period),
  }),
  'billing.journalFile': document()({
    needs: 'owner',
    about: 'Every booking of a period, double entry, as CSV for the accountant.',
    input: z.strictObject(period),
  }),
} as const satisfies Readonly<Record<string, Entry>>;
