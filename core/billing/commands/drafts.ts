import { isDeepStrictEqual } from 'node:util';
import type { WriteCtx } from '../../context.ts';
import type { BillExtra, BillLine } from '../../shared/bill.ts';
import { refuse } from '../../shared/errors.ts';
import type { InvoiceId } from '../../shared/ids.ts';
import { withoutParts } from '../rules/partial.ts';
import { isPart, isSplit, joined } from '../rules/split.ts';
import { checkBill, totalsOf } from '../rules/totals.ts';
import {
  creditedOther,
  type InvoiceRecord,
  invoiceOf,
  otherOfSplit,
  removeDraft,
  saveInvoice,
} from '../store/invoices.ts';

export type DraftChange = {
  readonly invoiceId: InvoiceId;
  readonly revision: number;
  readonly lines: readonly BillLine[];
  readonly extras: readonly BillExtra[];
  readonly orderNumber: string;
  readonly note: string;
};

/**
 * Changes a draft. One of two that were split keeps its lines, so that both still sum to the whole; one for several jobs
 * keeps them too, as each job is billed by its own, and so does a partial invoice, as the rest follows from them.
 * @throws STALE · INVOICE_ISSUED · PARTIAL_LINES · INVOICE_SPLIT · COLLECTIVE_LINES · BILL_BELOW_ZERO
 */
export function changeDraft(ctx: WriteCtx, input: DraftChange): { readonly invoiceId: InvoiceId } {
  const row = draftOf(ctx, input.invoiceId, input.revision);
  const bill = { ...row.bill, lines: input.lines, extras: input.extras };
  const { orderNumber, note } = input;
  if (isDeepStrictEqual(bill, withoutParts(row.bill))) saveInvoice(ctx.db, row.id, { orderNumber, note });
  else {
    if (row.kind === 'partial') refuse('PARTIAL_LINES', {});
    if (isSplit(row.bill) && otherOfSplit(ctx.db, row)) refuse('INVOICE_SPLIT', {});
    checkJobLines(row.bill.lines, input.lines);
    checkBill(bill);
    const totals = totalsOf(bill);
    saveInvoice(ctx.db, row.id, { bill, totals, toPayMinor: totals.toPayMinor, orderNumber, note });
  }
  ctx.changed(row.id, 'bill', 'orderNumber', 'note');
  return { invoiceId: row.id };
}

function checkJobLines(before: readonly BillLine[], lines: readonly BillLine[]): void {
  const ofJobs = [...before, ...lines].some((line) => line.ofJob !== undefined);
  if (ofJobs && !isDeepStrictEqual(lines, before)) refuse('COLLECTIVE_LINES', {});
}

/**
 * Throws a draft away. It never had a number. The part of two payers gives back what it took from the rest; the rest
 * takes the part with it. Beside one that was wholly credited, or in place of such a one, a draft goes alone.
 * @throws STALE · INVOICE_ISSUED · INVOICE_SPLIT when the other of the two is issued and stands
 */
export function dropDraft(
  ctx: WriteCtx,
  input: { readonly invoiceId: InvoiceId; readonly revision: number },
): { readonly invoiceId: InvoiceId } {
  const row = draftOf(ctx, input.invoiceId, input.revision);
  const other = otherOfSplit(ctx.db, row);
  const part = isPart(row.bill);
  if (other && other.number !== null && !creditedOther(ctx.db, other)) refuse('INVOICE_SPLIT', {});
  const open = other?.number === null ? other : null;
  if (open && !part) removeDraft(ctx.db, open.id);
  removeDraft(ctx.db, row.id);
  if (open && part) joinAgain(ctx, open);
  ctx.changed(row.id, 'removed');
  ctx.changed(row.customerId);
  return { invoiceId: row.id };
}

function joinAgain(ctx: WriteCtx, rest: InvoiceRecord): void {
  const bill = joined(rest.bill);
  const totals = totalsOf(bill);
  saveInvoice(ctx.db, rest.id, { bill, totals, toPayMinor: totals.toPayMinor });
  ctx.changed(rest.id, 'bill');
}

/** A draft as it was read. @throws INVOICE_ISSUED · STALE */
export function draftOf(ctx: WriteCtx, id: InvoiceId, revision: number): InvoiceRecord {
  const row = invoiceOf(ctx.db, id);
  if (row.number !== null) refuse('INVOICE_ISSUED', { number: row.number });
  if (row.revision !== revision) refuse('STALE', { what: 'invoice' });
  return row;
}
