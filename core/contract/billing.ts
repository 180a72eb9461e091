import { draftCollective } from '../billing/commands/collective.ts';
import { creditInvoice, remindInvoice } from '../billing/commands/credits.ts';
import { settleDeposit, takeDeposit } from '../billing/commands/deposits.ts';
import { changeDraft, dropDraft } from '../billing/commands/drafts.ts';
import { draftInvoice } from '../billing/commands/invoices.ts';
import { confirmNumber, issueInvoice } from '../billing/commands/issue.ts';
import { keepAsCredit } from '../billing/commands/keepCredit.ts';
import { draftOther } from '../billing/commands/otherInvoice.ts';
import { draftPartial, readPartialPlan } from '../billing/commands/partial.ts';
import { applyCredit, refund, takePayment } from '../billing/commands/payments.ts';
import { notePrint } from '../billing/commands/prints.ts';
import { declineQuote } from '../billing/commands/quotes.ts';
import { splitDraft } from '../billing/commands/split.ts';
import { countCash, readTill } from '../billing/commands/till.ts';
import {
  emailDraft,
  invoiceFile,
  journalFile,
  quoteFile,
  receiptFile,
  reminderFile,
  statementFile,
  ublFile,
} from '../billing/files.ts';
import { readDesk, readTaxReport } from '../billing/read/desk.ts';
import { listInvoices, readInvoice, readJobInvoices } from '../billing/read/invoice.ts';
import { readJobQuote, readQuote } from '../billing/read/quote.ts';
import { readStatement, readTips } from '../billing/read/statement.ts';
import { yearFile } from '../billing/yearFile.ts';
import { acceptQuote, sendQuote } from '../flows/acceptQuote.ts';
import { quoteEstimates } from '../flows/quoteEstimates.ts';
import type { HandlersFor } from '../handler.ts';
import type { billingEntries } from '../shared/catalogue/billing.ts';
import { localDayOf } from '../shared/time.ts';
import { jobMoneyOf } from '../views/billingJob.ts';
import { shopOf } from '../views/shop.ts';

export const billingHandlers: HandlersFor<typeof billingEntries> = {
  'billing.readQuote': (ctx, input) => readQuote(ctx, input.quoteId),
  'billing.readJobQuote': (ctx, input) => readJobQuote(ctx, input.jobId),
  'billing.quoteEstimates': quoteEstimates,
  'billing.sendQuote': sendQuote,
  'billing.declineQuote': declineQuote,
  'billing.acceptQuote': acceptQuote,
  'billing.takeDeposit': takeDeposit,
  'billing.settleDeposit': settleDeposit,
  'billing.draftInvoice': (ctx, input) => draftInvoice(ctx, input.jobId),
  'billing.readPartialPlan': readPartialPlan,
  'billing.draftPartial': draftPartial,
  'billing.draftOther': draftOther,
  'billing.changeDraft': changeDraft,
  'billing.dropDraft': dropDraft,
  'billing.draftCollective': draftCollective,
  'billing.splitDraft': splitDraft,
  'billing.notePrint': notePrint,
  'billing.issueInvoice': issueInvoice,
  'billing.creditInvoice': creditInvoice,
  'billing.takePayment': takePayment,
  'billing.countCash': countCash,
  'billing.applyCredit': applyCredit,
  'billing.keepAsCredit': keepAsCredit,
  'billing.refund': refund,
  'billing.remindInvoice': remindInvoice,
  'billing.confirmNumber': (ctx, input) => confirmNumber(ctx, input.lastOnPaper),
  'billing.readInvoice': (ctx, input) => readInvoice(ctx, input.invoiceId),
  'billing.listInvoices': listInvoices,
  'billing.readJobInvoices': (ctx, input) => readJobInvoices(ctx, input.jobId),
  'billing.readJobMoney': (ctx, input) =>
    jobMoneyOf(ctx.db, input.jobId, localDayOf(ctx.now, shopOf(ctx.db).zone)),
  'billing.readTill': readTill,
  'billing.readDesk': readDesk,
  'billing.readTaxReport': readTaxReport,
  'billing.readStatement': readStatement,
  'billing.readTips': readTips,
  'billing.statementFile': { make: statementFile },
  'billing.quoteFile': { make: quoteFile },
  'billing.invoiceFile': { make: invoiceFile },
  'billing.ublFile': { make: ublFile },
  'billing.receiptFile': { make: receiptFile },
  'billing.reminderFile': { make: reminderFile },
  'billing.emailDraft': { make: emailDraft },
  'billing.yearFile': { make: yearFile },
  'billing.journalFile': { make: journalFile },
};
