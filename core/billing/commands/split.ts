import type { ReadCtx, WriteCtx } from '../../context.ts';
import { refuse } from '../../shared/errors.ts';
import type { CustomerId, InvoiceId } from '../../shared/ids.ts';
import { paperLocale } from '../../shared/text/papers.ts';
import { say } from '../../shared/text/say.ts';
import type { Minor } from '../../shared/units.ts';
import { billedJob, billedVehicle, paperTagOf, partyOf } from '../../views/billingParty.ts';
import { isSplit, type Part, partMinor, splitBill } from '../rules/split.ts';
import { sum } from '../rules/totals.ts';
import { billsWork } from '../rules/workDone.ts';
import { type InvoiceRecord, openPrepayments, saveInvoice } from '../store/invoices.ts';
import { askedAfterCredits, openPartials } from '../store/partials.ts';
import { draftOf } from './drafts.ts';
import { newInvoice } from './invoices.ts';
import { tagOf } from './lines.ts';

export type SplitInput = {
  readonly invoiceId: InvoiceId;
  readonly revision: number;
  readonly part: Part;
};

/** The owner of a job that another pays for; null where one pays all. */
export function secondPayer(ctx: Pick<ReadCtx, 'db'>, row: InvoiceRecord): CustomerId | null {
  if (row.kind !== 'invoice' || row.jobId === null || !billsWork(row.bill) || isSplit(row.bill)) return null;
  const { customerId } = billedJob(ctx.db, row.jobId);
  return customerId === row.customerId ? null : customerId;
}

/**
 * Splits the draft of a job between its two payers: the owner pays a sum or a share by an invoice of their own, the
 * other payer the rest, and of that what partial invoices billed them before. All sum exactly to the whole.
 * @throws STALE · INVOICE_ISSUED · SPLIT_ONE_PAYER · INVOICE_SPLIT · SPLIT_PREPAID · SPLIT_VOUCHER · SPLIT_ABOVE
 */
export function splitDraft(ctx: WriteCtx, input: SplitInput): { readonly shareId: InvoiceId } {
  const row = draftOf(ctx, input.invoiceId, input.revision);
  if (isSplit(row.bill)) refuse('INVOICE_SPLIT', {});
  const owner = secondPayer(ctx, row);
  if (owner === null || row.jobId === null) return refuse('SPLIT_ONE_PAYER', {});
  if (openPrepayments(ctx.db, row.jobId).length > 0) refuse('SPLIT_PREPAID', {});
  if (row.vouchers.length > 0) refuse('SPLIT_VOUCHER', {});
  const askedMinor = partMinor(row.toPayMinor, input.part);
  const billedMinor = sum(openPartials(ctx.db, row.jobId).map((p) => askedAfterCredits(ctx.db, p)));
  const wholeMinor = (row.toPayMinor - billedMinor) as Minor;
  if (askedMinor <= 0 || askedMinor >= wholeMinor) refuse('SPLIT_ABOVE', { wholeMinor });
  const { part, rest } = splitBill(row.bill, row.totals, askedMinor, wordsOf(ctx, row, owner));
  saveInvoice(ctx.db, row.id, { ...rest, toPayMinor: rest.totals.toPayMinor });
  ctx.changed(row.id, 'bill');
  const made = newInvoice(ctx, {
    kind: 'invoice',
    jobId: row.jobId,
    customerId: owner,
    shareOfId: row.id,
    ...part,
  });
  return { shareId: made.id };
}

function wordsOf(
  ctx: WriteCtx,
  row: InvoiceRecord,
  owner: CustomerId,
): { readonly part: string; readonly rest: string } {
  const [theirs, own] = [paperTagOf(ctx.db, owner), tagOf(ctx, row)];
  const job = row.jobId ? billedJob(ctx.db, row.jobId) : null;
  const vehicle = job ? billedVehicle(ctx.db, job.vehicleId).makeModel : '';
  const other = partyOf(ctx.db, row.customerId).name;
  return {
    part: say(paperLocale(theirs), 'billing.shareLine', { job: job?.number ?? 0, vehicle, other }),
    rest: say(paperLocale(own), 'billing.restLine', { name: partyOf(ctx.db, owner).name }),
  };
}
