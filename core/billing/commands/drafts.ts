import { isDeepStrictEqual } from 'node:util';
import type { WriteCtx } from '../../context.ts';
import type { BillExtra, BillLine } from '../../shared/bill.ts';
import { refuse } from '../../shared/errors.ts';
import type { InvoiceId } from '../../shared/ids.ts';
import { isSplit, joined } from '../rules/split.ts';
import { checkBill, totalsOf } from '../rules/totals.ts';
import { type InvoiceRecord, invoiceOf, otherOfSplit, removeDraft, saveInvoice } from '../store/invoices.ts';

export type DraftChange = {
  readonly invoiceId: InvoiceId;
  readonly revision: number;
  readonly lines: readonly BillLine[];
  readonly extras: readonly BillExtra[];
  readonly orderNumber: string;
  readonly note: string;
};

/**
 * Changes a draft. One of two that were split keeps its lines, so that both still sum to the whole.
 * @throws STALE · INVOICE_ISSUED · INVOICE_SPLIT · BILL_BELOW_ZERO
 */
export function changeDraft(ctx: WriteCtx, input: DraftChange): { readonly invoiceId: InvoiceId } {
  const row = draftOf(ctx, input.invoiceId, input.revision);
  const bill = { ...row.bill, lines: input.lines, extras: input.extras };
  const { orderNumber, note } = input;
  if (isDeepStrictEqual(bill, row.bill)) saveInvoice(ctx.db, row.id, { orderNumber, note });
  else {
    if (isSplit(row.bill)) refuse('INVOICE_SPLIT', {});
    checkBill(bill);
    const totals = totalsOf(bill);
    saveInvoice(ctx.db, row.id, { bill, totals, toPayMinor: totals.toPayMinor, orderNumber, note });
  }
  ctx.changed(row.id, 'bill', 'orderNumber', 'note');
  return { invoiceId: row.id };
}

/**
 * Throws a draft away. It never had a number. The part of two payers gives back what it took from the rest; the rest
 * takes the part with it.
 * @throws STALE · INVOICE_ISSUED · INVOICE_SPLIT when the other of the two is issued
 */
export function dropDraft(
  ctx: WriteCtx,
  input: { readonly invoiceId: InvoiceId; readonly revision: number },
): { readonly invoiceId: InvoiceId } {
  const row = draftOf(ctx, input.invoiceId, input.revision);
  const other = otherOfSplit(ctx.db, row);
  if (other && other.number !== null) refuse('INVOICE_SPLIT', {});
  if (other && row.shareOfId === null) removeDraft(ctx.db, other.id);
  removeDraft(ctx.db, row.id);
  if (other && row.shareOfId !== null) joinAgain(ctx, other);
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
