import type { WriteCtx } from '../../context.ts';
import { refuse } from '../../shared/errors.ts';
import type { CustomerId, InvoiceId, JobId } from '../../shared/ids.ts';
import { paperManner } from '../../shared/text/papers.ts';
import { say } from '../../shared/text/say.ts';
import { date } from '../../shared/text/when.ts';
import { localDayOf } from '../../shared/time.ts';
import type { EpochMs, LocalDay } from '../../shared/units.ts';
import { type BilledJob, billedJob, billedVehicle, paperTagOf } from '../../views/billingParty.ts';
import { depositHeldFor } from '../../views/heldMoney.ts';
import { shopOf } from '../../views/shop.ts';
import { type CollectedJob, collectiveBill } from '../rules/collective.ts';
import { totalsOf } from '../rules/totals.ts';
import { addBilledJob, openPrepayments } from '../store/invoices.ts';
import { standingPartials } from '../store/partials.ts';
import { billOfJob, newInvoice, standingForWork } from './invoices.ts';

export type CollectiveInput = {
  readonly customerId: CustomerId;
  /** The jobs in the order they stand on it, each with the payer's own number, '' for none. */
  readonly jobs: readonly { readonly jobId: JobId; readonly orderNumber: string }[];
};

/**
 * Drafts one invoice for several jobs that one customer pays for, such as a fleet's of a month.
 * @throws COLLECTIVE_OTHER_PAYER · JOB_ALREADY_BILLED · COLLECTIVE_DRAFTED for a job with a draft of its own ·
 * COLLECTIVE_DEPOSIT where a deposit is held, which comes off the job's own invoice · COLLECTIVE_PARTIAL likewise · NOTHING_TO_BILL · COLLECTIVE_MIXED
 */
export function draftCollective(ctx: WriteCtx, input: CollectiveInput): { readonly invoiceId: InvoiceId } {
  const once = [...new Map(input.jobs.map((job) => [job.jobId, job])).values()];
  const collected = once.map((one) => collectedJob(ctx, input.customerId, one));
  const bill = collectiveBill(collected.map((c) => c.job));
  const made = newInvoice(ctx, {
    kind: 'invoice',
    jobId: null,
    customerId: input.customerId,
    bill,
    totals: totalsOf(bill),
    suppliedDay:
      collected
        .map((c) => c.day)
        .sort()
        .at(-1) ?? null,
  });
  for (const { jobId } of once) addBilledJob(ctx.db, made.id, jobId);
  return { invoiceId: made.id };
}

function collectedJob(
  ctx: WriteCtx,
  customerId: CustomerId,
  { jobId, orderNumber }: CollectiveInput['jobs'][number],
): { readonly job: CollectedJob; readonly day: LocalDay } {
  const job = billedJob(ctx.db, jobId);
  checkFree(ctx, job, customerId);
  const shop = shopOf(ctx.db);
  const locale = paperTagOf(ctx.db, customerId);
  const manner = paperManner({ ...shop, locale });
  const day = localDayOf((job.readyMs ?? ctx.now) as EpochMs, shop.zone);
  const { makeModel, plate } = billedVehicle(ctx.db, job.vehicleId);
  const values = { job: job.number, day: date(manner, day), vehicle: `${makeModel} ${plate}`.trim() };
  const text =
    orderNumber === ''
      ? say(manner.locale, 'billing.jobLine', values)
      : say(manner.locale, 'billing.jobOrderLine', { ...values, order: orderNumber });
  return { job: { jobId, text, bill: billOfJob(ctx, jobId, locale) }, day };
}

function checkFree(ctx: WriteCtx, job: BilledJob, customerId: CustomerId): void {
  const { number } = job;
  if ((job.payerId ?? job.customerId) !== customerId) refuse('COLLECTIVE_OTHER_PAYER', { number });
  const standing = standingForWork(ctx.db, job.id);
  const issued = standing.find((row) => row.number !== null);
  if (issued) refuse('JOB_ALREADY_BILLED', { number: issued.number ?? 0 });
  if (standing.length > 0) refuse('COLLECTIVE_DRAFTED', { number });
  if (depositHeldFor(ctx.db, job.id) > 0 || openPrepayments(ctx.db, job.id).length > 0)
    refuse('COLLECTIVE_DEPOSIT', { number });
  if (standingPartials(ctx.db, job.id).length > 0) refuse('COLLECTIVE_PARTIAL', { number });
}
