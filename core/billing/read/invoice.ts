import type { ReadCtx } from '../../context.ts';
import { allRows, oneRow } from '../../db/prepared.ts';
import type { Parties } from '../../db/schema/billing.ts';
import type { Bill } from '../../shared/bill.ts';
import { refuse } from '../../shared/errors.ts';
import type { CustomerId, InvoiceId, JobId } from '../../shared/ids.ts';
import { localDayOf } from '../../shared/time.ts';
import type { EpochMs, Minor } from '../../shared/units.ts';
import type {
  InvoiceLinkView,
  InvoiceRow,
  InvoicesPage,
  InvoiceView,
  PaymentRow,
} from '../../shared/views/billing.ts';
import {
  invoicePage,
  invoicesOf,
  type ListAsk,
  paymentsOfInvoice,
  paymentsOfReceipt,
  takenBeside,
} from '../../views/billingLists.ts';
import { billedJob, billedVehicle, partyOf, sellerOf } from '../../views/billingParty.ts';
import { printsOf } from '../../views/billingPrints.ts';
import { creditHeldOf } from '../../views/heldMoney.ts';
import { shopOf } from '../../views/shop.ts';
import { vouchersUsedOn } from '../../views/vouchers.ts';
import { type FinalFigures, finalFigures } from '../commands/issue.ts';
import { tagOf } from '../commands/lines.ts';
import { restOf } from '../commands/partial.ts';
import { billedBefore, progressOf } from '../commands/partialIssue.ts';
import { correctedBy, owedNow } from '../commands/payments.ts';
import { secondPayer } from '../commands/split.ts';
import { billedAboveOf } from '../commands/takenOff.ts';
import { inCash } from '../rules/cash.ts';
import { leftOfLines } from '../rules/credit.ts';
import { overdueDays } from '../rules/owed.ts';
import { billsWork } from '../rules/workDone.ts';
import { creditsOf, type InvoiceRecord, invoiceOf, isCredited, otherOfSplit } from '../store/invoices.ts';
import { agreedOption } from '../store/quotes.ts';

function linkOf(row: InvoiceRecord): InvoiceLinkView {
  return { id: row.id, number: row.number ?? 0, kind: row.kind, toPayMinor: row.toPayMinor };
}

/** Names as printed on an issued document; of a draft, as they stand today. */
function partiesOf(ctx: ReadCtx, row: InvoiceRecord): Parties {
  if (row.parties) return row.parties;
  const job = row.jobId ? billedJob(ctx.db, row.jobId) : null;
  const { termsDays: _, ...customer } = partyOf(ctx.db, row.customerId);
  const seller = sellerOf(ctx.db, tagOf(ctx, row));
  return { seller, customer, vehicle: job ? billedVehicle(ctx.db, job.vehicleId) : null };
}

/** A document with its figures, what settled it and what is still owed. */
export function readInvoice(ctx: ReadCtx, invoiceId: InvoiceId): InvoiceView {
  const row = invoiceOf(ctx.db, invoiceId);
  const figures = finalFigures(ctx, row);
  const { bill, totals, prepaidMinor } = figures;
  const owedMinor = owedOf(ctx, row);
  return {
    id: row.id,
    kind: row.kind,
    number: row.number,
    jobId: row.jobId,
    jobNumber: row.jobId ? billedJob(ctx.db, row.jobId).number : null,
    ...partiesOf(ctx, row),
    agreed: isAgreed(ctx, row),
    bill,
    totals,
    prepaidMinor,
    dueMinor: (totals.toPayMinor - prepaidMinor) as Minor,
    owedMinor,
    owedCashMinor: inCash(owedMinor, shopOf(ctx.db).settings.billing.cashStepMinor),
    creditHeldMinor: creditHeldOf(ctx.db, row.customerId),
    issuedMs: row.issuedMs,
    issuedDay: row.issuedDay,
    dueDay: row.dueDay,
    overdueDays: overdueDays(row.dueDay, localDayOf(ctx.now, shopOf(ctx.db).zone), owedMinor),
    suppliedDay: row.suppliedDay,
    note: row.note,
    reason: row.reason,
    orderNumber: row.orderNumber,
    of: row.ofInvoiceId ? linkOf(invoiceOf(ctx.db, row.ofInvoiceId)) : null,
    ...partlyOf(ctx, row, figures),
    ...creditedOf(ctx, row, bill),
    payments: paymentsOfInvoice(ctx.db, row.id),
    beside: takenBeside(ctx.db, row.id),
    reminders: remindersOf(ctx, row.id),
    prints: printsOf(ctx.db, row.id),
    ...vouchersOf(ctx, row, figures),
    ...splitOf(ctx, row),
    revision: row.revision,
  };
}

/** How a document stands to the partial invoices of its job. */
function partlyOf(
  ctx: ReadCtx,
  row: InvoiceRecord,
  figures: FinalFigures,
): Pick<InvoiceView, 'before' | 'progress' | 'billedAbove'> {
  const before = billedBefore(ctx, row, figures.partials);
  const progress = progressOf(ctx, row);
  const billedAbove = billedAboveOf(ctx, row, figures, figures.besides);
  if (progress === null) return { before, progress, billedAbove };
  const { nth, wholeMinor } = progress;
  const restMinor = restOf(wholeMinor, before, figures.totals.toPayMinor);
  return { before, progress: { nth, wholeMinor, restMinor }, billedAbove };
}

function remindersOf(ctx: ReadCtx, id: InvoiceId): InvoiceView['reminders'] {
  const sql = 'SELECT level, at_ms AS atMs FROM reminder WHERE invoice_id = :id ORDER BY level';
  return allRows<{ level: number; atMs: EpochMs }>(ctx.db, sql, { id });
}

function vouchersOf(
  ctx: ReadCtx,
  row: InvoiceRecord,
  { vouchers }: FinalFigures,
): Pick<InvoiceView, 'vouchersOff' | 'vouchersUsed'> {
  const vouchersOff = vouchers.map(({ number, code, amountMinor }) => ({ number, code, amountMinor }));
  return { vouchersOff, vouchersUsed: vouchersUsedOn(ctx.db, row.id) };
}

/** The other invoice of a split bill, or who could pay a part of this draft. */
function splitOf(ctx: ReadCtx, row: InvoiceRecord): Pick<InvoiceView, 'split' | 'secondPayer'> {
  const nameOf = (id: InvoiceRecord['customerId']): string => partyOf(ctx.db, id).name;
  const other = otherOfSplit(ctx.db, row);
  if (other) {
    const { id, number, customerId, toPayMinor } = other;
    return { split: { id, number, customer: nameOf(customerId), toPayMinor }, secondPayer: null };
  }
  const second = row.number === null ? secondPayer(ctx, row) : null;
  return { split: null, secondPayer: second && nameOf(second) };
}

/** Credit notes of a document, and what they left of its lines. */
function creditedOf(
  ctx: ReadCtx,
  row: InvoiceRecord,
  bill: Bill,
): Pick<InvoiceView, 'credits' | 'lineLeftMinor' | 'wholeCredited'> {
  const notes = creditsOf(ctx.db, row.id);
  const bills = notes.map((note) => note.bill);
  return {
    credits: notes.map(linkOf),
    lineLeftMinor: leftOfLines(bill, bills),
    wholeCredited: isCredited(ctx.db, row),
  };
}

/** Issued is agreed enough; goods beside the work and deposits need no quote. */
function isAgreed(ctx: ReadCtx, row: InvoiceRecord): boolean {
  if (row.number !== null || row.kind !== 'invoice' || row.jobId === null || !billsWork(row.bill))
    return true;
  return agreedOption(ctx.db, row.jobId) !== null;
}

function owedOf(ctx: ReadCtx, row: InvoiceRecord): Minor {
  if (row.number === null) return 0 as Minor;
  const owed = owedNow(ctx, correctedBy(ctx, row));
  return row.kind === 'credit' ? (Math.min(0, owed) as Minor) : owed;
}

export function listInvoices(ctx: ReadCtx, ask: ListAsk): InvoicesPage {
  return invoicePage(ctx.db, ask, localDayOf(ctx.now, shopOf(ctx.db).zone));
}

export function readJobInvoices(ctx: ReadCtx, jobId: JobId): InvoiceRow[] {
  return invoicesOf(ctx.db, jobId, localDayOf(ctx.now, shopOf(ctx.db).zone));
}

/** Rows of money that were taken together. @throws NOT_FOUND */
export function receiptRows(ctx: ReadCtx, receipt: number): PaymentRow[] {
  const rows = paymentsOfReceipt(ctx.db, receipt);
  return rows.length > 0 ? rows : refuse('NOT_FOUND', { what: 'receipt', id: String(receipt) });
}

/** The BCP 47 tag that a receipt is written in: the one it had when the money was taken. @throws NOT_FOUND */
export function receiptLocale(ctx: ReadCtx, receipt: number): string {
  const sql =
    'SELECT locale, customer_id AS customerId FROM payment WHERE receipt = :receipt ORDER BY id LIMIT 1';
  const row = oneRow<{ locale: string; customerId: CustomerId | null }>(ctx.db, sql, { receipt });
  if (!row) return refuse('NOT_FOUND', { what: 'receipt', id: String(receipt) });
  return tagOf(ctx, row);
}
