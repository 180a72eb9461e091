import type { ReadCtx, WriteCtx } from '../../context.ts';
import type { Progress } from '../../db/schema/billing.ts';
import type { ReadDb } from '../../db/types.ts';
import type { Bill, BillTotals, LineTax } from '../../shared/bill.ts';
import { refuse } from '../../shared/errors.ts';
import type { CustomerId, InvoiceId, JobId } from '../../shared/ids.ts';
import { localDayOf } from '../../shared/time.ts';
import type { EpochMs, LocalDay, Minor } from '../../shared/units.ts';
import type { InvoiceKind } from '../../shared/views/billing.ts';
import { billedJob, paperTagOf } from '../../views/billingParty.ts';
import { stagesDone, wasStopped } from '../../views/billingWork.ts';
import { shopOf } from '../../views/shop.ts';
import { agreedParts } from '../rules/agreedParts.ts';
import { withCharges } from '../rules/charges.ts';
import { isJobCredited } from '../rules/collective.ts';
import { beforeTaken } from '../rules/deposit.ts';
import { labourTaxOf, withLabourTax } from '../rules/labourTax.ts';
import { withThings } from '../rules/quotedThings.ts';
import { labourByStage } from '../rules/quoteLines.ts';
import { isPart, isSplit } from '../rules/split.ts';
import { sum, totalsOf } from '../rules/totals.ts';
import {
  basisOfBill,
  billsWork,
  halfWayLines,
  materialsDone,
  type StageDone,
  timedLines,
} from '../rules/workDone.ts';
import {
  addInvoice,
  creditedOther,
  creditsOf,
  type InvoiceRecord,
  invoiceOf,
  invoicesOfJob,
  isCredited,
  otherOfSplit,
} from '../store/invoices.ts';
import { billedOn } from '../store/partials.ts';
import { agreedOption, type OptionRecord } from '../store/quotes.ts';
import { billIn, lineTaxOn, lineText } from './lines.ts';
import { unagreedBill } from './unagreed.ts';

export type NewInvoice = {
  readonly kind: InvoiceKind;
  readonly jobId: JobId | null;
  readonly customerId: CustomerId;
  readonly bill: Bill;
  readonly totals: BillTotals;
  readonly ofInvoiceId?: InvoiceId;
  readonly shareOfId?: InvoiceId;
  readonly progress?: Progress;
  readonly reason?: string;
  readonly suppliedDay?: LocalDay | null;
  /** The tag that its lines are written in, where it is not that of the customer's papers. */
  readonly locale?: string;
};

/** Adds a draft and gives it back as stored. */
export function newInvoice(ctx: WriteCtx, made: NewInvoice): InvoiceRecord {
  const id = ctx.newId<InvoiceId>();
  addInvoice(ctx.db, {
    id,
    kind: made.kind,
    jobId: made.jobId,
    customerId: made.customerId,
    ofInvoiceId: made.ofInvoiceId ?? null,
    shareOfId: made.shareOfId ?? null,
    bill: made.bill,
    totals: made.totals,
    toPayMinor: made.totals.toPayMinor,
    progress: made.progress ?? null,
    reason: made.reason ?? '',
    suppliedDay: made.suppliedDay ?? null,
    locale: made.locale ?? paperTagOf(ctx.db, made.customerId),
    madeMs: ctx.now,
  });
  ctx.changed(id, 'bill');
  return invoiceOf(ctx.db, id);
}

/** An invoice for the work of a job or for a part of it. */
function isForWork(row: InvoiceRecord): boolean {
  return row.kind === 'invoice' && (billsWork(row.bill) || isSplit(row.bill));
}

/** What stands of a job's invoices for work: drafts, and issued ones that were not wholly credited. */
export function standingForWork(db: ReadDb, jobId: JobId): InvoiceRecord[] {
  return invoicesOfJob(db, jobId).filter((row) => isForWork(row) && !isCreditedFor(db, row, jobId));
}

/** Credited as far as one job goes: the whole document, or of one for several jobs all that this one has on it. */
function isCreditedFor(db: ReadDb, row: InvoiceRecord, jobId: JobId): boolean {
  if (isCredited(db, row)) return true;
  const notes = creditsOf(db, row.id).map((note) => note.bill);
  return row.jobId === null && isJobCredited(row.bill, notes, jobId);
}

/**
 * Drafts a job's invoice. A draft that is there already is given back as it is; where one of two that were split was
 * wholly credited, that half is drafted again.
 * @throws NOTHING_TO_BILL · JOB_ALREADY_BILLED
 */
export function draftInvoice(ctx: WriteCtx, jobId: JobId): { readonly invoiceId: InvoiceId } {
  const standing = standingForWork(ctx.db, jobId);
  const drafts = standing.filter((row) => row.number === null);
  const draft = drafts.find((row) => !isPart(row.bill)) ?? drafts[0];
  if (draft) return { invoiceId: draft.id };
  const job = billedJob(ctx.db, jobId);
  const payerId = job.payerId ?? job.customerId;
  const half = standing[0];
  if (half) return halfAgain(ctx, half, isPart(half.bill) ? payerId : job.customerId);
  const locale = paperTagOf(ctx.db, payerId);
  const bill = billOfJob(ctx, jobId, locale);
  const totals = totalsOf(bill);
  const made = newInvoice(ctx, { kind: 'invoice', jobId, customerId: payerId, bill, totals });
  return { invoiceId: made.id };
}

/** The half that was credited beside one that stands, as it was: both sum to the whole again. */
function halfAgain(
  ctx: WriteCtx,
  standing: InvoiceRecord,
  customerId: CustomerId,
): { readonly invoiceId: InvoiceId } {
  const gone = otherOfSplit(ctx.db, standing) ? null : creditedOther(ctx.db, standing);
  if (!gone) return refuse('JOB_ALREADY_BILLED', { number: standing.number ?? 0 });
  const { jobId, locale } = gone;
  const shareOfId = standing.id;
  const whole = beforeTaken(gone, sum(billedOn(ctx.db, gone.id).map((b) => b.toPayMinor)));
  const made = newInvoice(ctx, { kind: 'invoice', jobId, customerId, shareOfId, locale, ...whole });
  return { invoiceId: made.id };
}

/**
 * What a job comes to: by the agreed option, by the time taken, by the lower of both, or, when the job was stopped half
 * way, by what was done (and no minimum charge); by the time taken also where nothing was agreed. Taxes are those of the
 * day the work was ready, else of today: prices with tax keep their sum, prices before tax their net. In the language
 * of a paper's tag.
 * @throws NOTHING_TO_BILL
 */
export function billOfJob(ctx: WriteCtx, jobId: JobId, locale: string): Bill {
  const job = billedJob(ctx.db, jobId);
  const agreed = agreedOption(ctx.db, jobId);
  const supplied = localDayOf((job.readyMs ?? ctx.now) as EpochMs, shopOf(ctx.db).zone);
  const bill = agreed
    ? taxedOn(ctx, billFor(ctx, jobId, agreed, locale), supplied)
    : unagreedBill(ctx, job, supplied, locale);
  return bill.lines.length === 0 ? refuse('NOTHING_TO_BILL', {}) : bill;
}

type Agreed = NonNullable<ReturnType<typeof agreedOption>>;

/** The same bill with each tax as it stands on a day; what was quoted under an older rate is billed under the new. */
export function taxedOn(ctx: ReadCtx, bill: Bill, day: LocalDay): Bill {
  const onDay = <T extends { readonly tax: LineTax }>(part: T): T => ({
    ...part,
    tax: lineTaxOn(ctx, part.tax.code, day),
  });
  return { ...bill, lines: bill.lines.map(onDay), extras: bill.extras.map(onDay) };
}

function billFor(ctx: WriteCtx, jobId: JobId, { quote, option }: Agreed, locale: string): Bill {
  const textOf = lineText(locale);
  const standard = option.bill.lines.find((line) => line.tax.code === 'standard')?.tax;
  const tax = standard ?? lineTaxOn(ctx, 'standard', localDayOf(ctx.now, shopOf(ctx.db).zone));
  const labourTax = labourTaxOf(option.bill);
  const { charges } = option;
  const { materials, labour } = agreedParts(option.bill);
  const done = stagesDone(ctx.db, jobId);
  const agreed = labourByStage(option.stages, {
    labourMinor: labour,
    chargedMin: option.chargedMin,
    rates: option.rates,
  });
  const stopped = wasStopped(ctx.db, jobId);
  const used = stopped ? materialsDone(agreed, done, materials) : materials;
  const whole = stopped ? { ...charges, minimumMinor: 0 as Minor } : charges;
  const work = timedLines(billedByTime(done, option), option.rates, used, tax, textOf);
  const timed: Bill = {
    ...option.bill,
    lines: withThings(withLabourTax(withCharges(work, whole, tax, textOf), labourTax), option.bill.lines),
  };
  const way = basisOfBill(quote.basis, stopped, option.toPayMinor, totalsOf(timed).toPayMinor);
  if (way === 'agreed') return billIn(option.bill, quote.locale || locale, locale);
  if (way === 'timed') return timed;
  const half = halfWayLines(agreed, done, materials, tax, textOf);
  const halfLines = withLabourTax(withCharges(half, whole, tax, textOf), labourTax);
  return { ...option.bill, lines: withThings(halfLines, option.bill.lines) };
}

/** Looking at the paint is billed by its time only where it was part of what was agreed. */
function billedByTime(done: readonly StageDone[], option: OptionRecord): readonly StageDone[] {
  const looks = option.stages.some((s) => s.kind === 'inspection');
  return done.filter((s) => looks || s.kind !== 'inspection');
}
