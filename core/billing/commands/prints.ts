import type { WriteCtx } from '../../context.ts';
import { refuse } from '../../shared/errors.ts';
import type { InvoiceId } from '../../shared/ids.ts';
import { printsOf } from '../../views/billingPrints.ts';
import { addPrint, invoiceOf } from '../store/invoices.ts';

/**
 * Keeps that an issued document went out: printed, saved as a file or sent. It has one original: what is printed after
 * that says that it is a copy.
 * @throws INVOICE_NOT_ISSUED
 * @source common practice, no source; that a second original may create a second tax debt is from memory
 */
export function notePrint(
  ctx: WriteCtx,
  input: { readonly invoiceId: InvoiceId },
): { readonly times: number } {
  const row = invoiceOf(ctx.db, input.invoiceId);
  if (row.number === null) refuse('INVOICE_NOT_ISSUED', {});
  addPrint(ctx.db, { invoiceId: row.id, atMs: ctx.now, byId: ctx.actor?.personId ?? null });
  ctx.changed(row.id, 'print');
  return { times: printsOf(ctx.db, row.id).length };
}
