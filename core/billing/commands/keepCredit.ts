import type { WriteCtx } from '../../context.ts';
import { nextNumber } from '../../db/sequence.ts';
import type { InvoiceId } from '../../shared/ids.ts';
import type { Minor } from '../../shared/units.ts';
import { checkRefund } from '../rules/owed.ts';
import { bookMoney, owedNow, paidBackOn, settleWith } from './payments.ts';

/**
 * Keeps what the shop owes on a document (after a credit note) as a credit on the payer's account, for a later
 * invoice. No money moves: a repayment and a credit of one receipt, both from what is held.
 * @throws REFUND_ABOVE_PAID when the shop owes less · INVOICE_NOT_ISSUED
 */
export function keepAsCredit(
  ctx: WriteCtx,
  input: { readonly invoiceId: InvoiceId; readonly amountMinor: Minor },
): { readonly receipt: number } {
  const row = paidBackOn(ctx, input.invoiceId);
  checkRefund(input.amountMinor, (-owedNow(ctx, row) || 0) as Minor);
  const receipt = nextNumber(ctx.db, 'receipt');
  const common = { way: 'account', customerId: row.customerId, receipt } as const;
  const amountMinor = -input.amountMinor as Minor;
  const back = bookMoney(ctx, { ...common, kind: 'refund', amountMinor, jobId: row.jobId });
  settleWith(ctx, back, row.id, amountMinor);
  bookMoney(ctx, { ...common, kind: 'credit', amountMinor: input.amountMinor });
  return { receipt };
}
