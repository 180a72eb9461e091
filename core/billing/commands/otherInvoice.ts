import type { WriteCtx } from '../../context.ts';
import type { BillLine } from '../../shared/bill.ts';
import type { CustomerId, InvoiceId, JobId } from '../../shared/ids.ts';
import type { TaxCode } from '../../shared/tax.ts';
import type { Minor } from '../../shared/units.ts';
import { partyOf } from '../../views/billingParty.ts';
import { knownJob } from '../../views/known.ts';
import { shopOf } from '../../views/shop.ts';
import { totalsOf } from '../rules/totals.ts';
import { newInvoice } from './invoices.ts';
import { lineTaxOn } from './lines.ts';
import { todayOf } from './payments.ts';

export type OtherLine = {
  readonly text: string;
  readonly quantity: number;
  readonly priceMinor: Minor;
  readonly tax: TaxCode;
};
export type OtherInvoice = {
  readonly customerId: CustomerId;
  /** The job it has to do with, null for none. */
  readonly jobId: JobId | null;
  readonly lines: readonly OtherLine[];
};

/**
 * Drafts an invoice of free lines: goods, extra work, a fee. Prices with tax when the shop's are; taxes as they stand
 * today.
 * @throws NOT_FOUND · NO_TAX
 */
export function draftOther(ctx: WriteCtx, input: OtherInvoice): { readonly invoiceId: InvoiceId } {
  const customer = partyOf(ctx.db, input.customerId);
  const day = todayOf(ctx);
  const lines = input.lines.map(
    (line): BillLine => ({
      what: 'goods',
      text: line.text,
      quantity: line.quantity,
      unit: 'piece',
      per: 1,
      priceMinor: line.priceMinor,
      discountMinor: 0,
      tax: lineTaxOn(ctx, line.tax, day),
    }),
  );
  const bill = { lines, extras: [], taxIncluded: shopOf(ctx.db).settings.billing.pricesIncludeTax };
  const made = newInvoice(ctx, {
    kind: 'invoice',
    jobId: knownJob(ctx.db, input.jobId),
    customerId: customer.id,
    bill,
    totals: totalsOf(bill),
  });
  return { invoiceId: made.id };
}
