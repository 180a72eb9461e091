import type { WriteCtx } from '../../context.ts';
import type { Bill, BillTotals } from '../../shared/bill.ts';
import { refuse } from '../../shared/errors.ts';
import type { InvoiceId } from '../../shared/ids.ts';
import type { Minor } from '../../shared/units.ts';
import {
  checkCredit,
  type LineCredit,
  partOf,
  partTotals,
  restOf,
  turned,
  turnedTotals,
} from '../rules/credit.ts';
import type { DateChoice } from '../rules/numbers.ts';
import { sum } from '../rules/totals.ts';
import {
  addBilledJob,
  addReminder,
  billedJobsOf,
  creditsOf,
  type InvoiceRecord,
  invoiceOf,
  isCredited,
} from '../store/invoices.ts';
import { newInvoice } from './invoices.ts';
import { type Issued, issueRow } from './issue.ts';

export type CreditInput = {
  readonly invoiceId: InvoiceId;
  /** null = the whole document, or what earlier credit notes left of it. */
  readonly lines: readonly LineCredit[] | null;
  readonly reason: string;
  readonly date: DateChoice;
};

/**
 * Writes and issues a credit note for all or part of an issued document.
 * @throws INVOICE_NOT_ISSUED · CREDIT_ABOVE_LINE · CREDIT_ABOVE_INVOICE · NOTHING_TO_CREDIT
 */
export function creditInvoice(ctx: WriteCtx, input: CreditInput): Issued {
  const row = invoiceOf(ctx.db, input.invoiceId);
  if (row.number === null || row.kind === 'credit') return refuse('INVOICE_NOT_ISSUED', {});
  if (isCredited(ctx.db, row)) refuse('NOTHING_TO_CREDIT', {});
  const earlier = creditsOf(ctx.db, row.id);
  const creditedMinor = sum(earlier.map((c) => c.toPayMinor)) as Minor;
  const { bill, totals } = noteFor(row, input.lines, earlier, creditedMinor);
  checkCredit(row.toPayMinor, creditedMinor, totals.toPayMinor);
  const made = newInvoice(ctx, {
    kind: 'credit',
    jobId: row.jobId,
    customerId: row.customerId,
    ofInvoiceId: row.id,
    bill,
    totals,
    reason: input.reason,
    suppliedDay: row.suppliedDay,
    locale: row.parties?.seller.locale ?? row.locale,
  });
  for (const { jobId } of billedJobsOf(ctx.db, row.id)) addBilledJob(ctx.db, made.id, jobId);
  return issueRow(ctx, made, input.date);
}

/** The bill and figures of the next credit note; of a whole document they mirror it part by part. */
function noteFor(
  row: InvoiceRecord,
  lines: readonly LineCredit[] | null,
  earlier: readonly InvoiceRecord[],
  creditedMinor: Minor,
): { readonly bill: Bill; readonly totals: BillTotals } {
  if (lines === null && earlier.length === 0)
    return { bill: turned(row.bill), totals: turnedTotals(row.totals) };
  const before = earlier.map((c) => c.bill);
  const bill = lines === null ? restOf(row.bill, before) : partOf(row.bill, lines, before);
  const leftMinor = (row.toPayMinor + creditedMinor) as Minor;
  return { bill, totals: partTotals(row.bill, bill, before, leftMinor) };
}

/** Keeps that a reminder of a level was written; one that was noted before stays as it was. @throws INVOICE_NOT_ISSUED */
export function remindInvoice(
  ctx: WriteCtx,
  input: { readonly invoiceId: InvoiceId; readonly level: number },
): { readonly invoiceId: InvoiceId } {
  const row = invoiceOf(ctx.db, input.invoiceId);
  if (row.number === null) refuse('INVOICE_NOT_ISSUED', {});
  addReminder(ctx.db, {
    invoiceId: row.id,
    level: input.level,
    atMs: ctx.now,
    byId: ctx.actor?.personId ?? null,
  });
  ctx.changed(row.id, 'reminder');
  return { invoiceId: row.id };
}
