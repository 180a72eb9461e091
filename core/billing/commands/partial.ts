import type { ReadCtx, WriteCtx } from '../../context.ts';
import type { Bill } from '../../shared/bill.ts';
import { refuse } from '../../shared/errors.ts';
import type { InvoiceId, JobId } from '../../shared/ids.ts';
import { percent } from '../../shared/text/format.ts';
import { amountText } from '../../shared/text/manner.ts';
import { paperManner } from '../../shared/text/papers.ts';
import { say } from '../../shared/text/say.ts';
import { localDayOf } from '../../shared/time.ts';
import { type Minor, PPM, type Ppm } from '../../shared/units.ts';
import type { BilledBefore, PartialLineView, PartialPlan } from '../../shared/views/partial.ts';
import { type BilledJob, billedJob, billedVehicle, paperTagOf, partyOf } from '../../views/billingParty.ts';
import { shopOf } from '../../views/shop.ts';
import { amountsOf, isAheadOfDone, partialBill, shareOf } from '../rules/partial.ts';
import { MOST_EVENED, partialAmounts } from '../rules/partialTax.ts';
import { sum, totalsOf } from '../rules/totals.ts';
import { type InvoiceRecord, openPrepayments } from '../store/invoices.ts';
import { askedAfterCredits, partialsOfJob, standingPartials } from '../store/partials.ts';
import { agreedOption, type OptionRecord } from '../store/quotes.ts';
import { newInvoice, standingForWork, taxedOn } from './invoices.ts';
import { billIn } from './lines.ts';
import { billedSoFar, doneNow, progressSoFar } from './partialIssue.ts';

export type PartialAsk = {
  readonly jobId: JobId;
  /** Of each line of the agreed bill: billed of it in all by now. null = as far as its stages are finished. */
  readonly shares: readonly { readonly line: number; readonly sharePpm: Ppm }[] | null;
};

type Gathered = {
  readonly job: BilledJob;
  readonly option: OptionRecord;
  readonly tag: string;
  readonly bill: Bill;
  readonly billed: readonly Minor[];
  readonly done: readonly Ppm[];
  readonly now: readonly Minor[];
};

/** @throws NOT_FOUND · PARTIAL_NOT_AGREED without an agreed quote · JOB_ALREADY_BILLED once its invoice is issued */
function gather(ctx: ReadCtx, ask: PartialAsk): Gathered {
  const job = billedJob(ctx.db, ask.jobId);
  const agreed = agreedOption(ctx.db, job.id);
  if (!agreed) return refuse('PARTIAL_NOT_AGREED', {});
  const issued = standingForWork(ctx.db, job.id).find((row) => row.number !== null);
  if (issued) refuse('JOB_ALREADY_BILLED', { number: issued.number ?? 0 });
  const { quote, option } = agreed;
  const today = localDayOf(ctx.now, shopOf(ctx.db).zone);
  const tag = paperTagOf(ctx.db, job.payerId ?? job.customerId);
  const bill = taxedOn(ctx, billIn(option.bill, quote.locale || tag, tag), today);
  const billed = billedSoFar(ctx, job.id, option);
  const done = doneNow(ctx, job.id, option);
  const asked = sharesAsked(bill, ask.shares ?? []);
  const shares = bill.lines.map((_, i) => (ask.shares === null ? done[i] : asked.get(i)) ?? (0 as Ppm));
  return { job, option, tag, bill, billed, done, now: partialAmounts(bill, billed, shares) };
}

function sharesAsked(bill: Bill, shares: NonNullable<PartialAsk['shares']>): ReadonlyMap<number, Ppm> {
  const unknown = shares.find(({ line }) => line >= bill.lines.length);
  if (unknown) refuse('NOT_FOUND', { what: 'line', id: String(unknown.line + 1) });
  return new Map(shares.map(({ line, sharePpm }) => [line, sharePpm]));
}

/**
 * What could be billed now of an agreed job: proposed by the stages finished, or as far as asked for, and what would
 * remain.
 * @throws NOT_FOUND · PARTIAL_NOT_AGREED · JOB_ALREADY_BILLED · NO_TAX
 */
export function readPartialPlan(ctx: ReadCtx, ask: PartialAsk): PartialPlan {
  const gathered = gather(ctx, ask);
  const { job, bill, billed, done, now } = gathered;
  const reached = now.map((amount, i) => (amount + (billed[i] ?? 0)) as Minor);
  const { before } = progressSoFar(ctx, job.id);
  const nowMinor = totalsOf(partialBill(bill, now, (line) => line.text)).toPayMinor;
  const wholeMinor = totalsOf(bill).toPayMinor;
  return {
    jobNumber: job.number,
    customer: partyOf(ctx.db, job.customerId).name,
    vehicle: billedVehicle(ctx.db, job.vehicleId).makeModel,
    payer: partyOf(ctx.db, job.payerId ?? job.customerId).name,
    taxIncluded: bill.taxIncluded,
    lines: linesOf(gathered, reached),
    wholeMinor,
    before,
    nowMinor,
    restMinor: restOf(wholeMinor, before, nowMinor),
    aheadOfWork: isAheadOfDone(bill, reached, done, MOST_EVENED),
    draftId: draftOf(ctx, job.id),
  };
}

/** With tax: what the invoice of the rest will ask for, if nothing changes. */
export function restOf(wholeMinor: Minor, before: readonly BilledBefore[], nowMinor: Minor): Minor {
  return (wholeMinor - sum(before.map((b) => b.toPayMinor)) - nowMinor) as Minor;
}

function linesOf({ bill, billed, done, now }: Gathered, reached: readonly Minor[]): PartialLineView[] {
  const whole = amountsOf(bill);
  const none = 0 as Minor;
  return [...bill.lines, ...bill.extras].map(({ text }, line) => ({
    ...{ line, text, wholeMinor: whole[line] ?? none, billedMinor: billed[line] ?? none },
    donePpm: done[line] ?? (0 as Ppm),
    sharePpm: shareOf(reached[line] ?? none, whole[line] ?? none),
    nowMinor: now[line] ?? none,
    asked: line < bill.lines.length,
  }));
}

function draftOf(ctx: ReadCtx, jobId: JobId): InvoiceId | null {
  return partialsOfJob(ctx.db, jobId).find((row) => row.number === null)?.id ?? null;
}

/** What prepayment invoices asked for comes off the final one: the partial ones leave as much to it. */
function checkPrepaidAbove(ctx: ReadCtx, jobId: JobId, wholeMinor: Minor, nowMinor: Minor): void {
  const asked = (rows: readonly InvoiceRecord[]): number =>
    sum(rows.map((r) => askedAfterCredits(ctx.db, r)));
  const prepayments = openPrepayments(ctx.db, jobId);
  const leftMinor = wholeMinor - asked(prepayments) - asked(standingPartials(ctx.db, jobId));
  if (prepayments.length > 0 && nowMinor > leftMinor) refuse('PARTIAL_PREPAID', { leftMinor });
}

/**
 * Drafts a partial invoice for the payer of a job.
 * @throws PARTIAL_DRAFTED beside one that is not issued · PARTIAL_NOTHING when all asked for is billed already ·
 * PARTIAL_PREPAID · PARTIAL_NOT_AGREED · JOB_ALREADY_BILLED · NO_TAX
 */
export function draftPartial(ctx: WriteCtx, ask: PartialAsk): { readonly invoiceId: InvoiceId } {
  const { job, option, tag, bill, billed, now } = gather(ctx, ask);
  if (draftOf(ctx, job.id) !== null) refuse('PARTIAL_DRAFTED', {});
  const manner = paperManner({ ...shopOf(ctx.db), locale: tag });
  const part = partialBill(bill, now, ({ text }, i) => {
    const whole = amountsOf(bill)[i] ?? (0 as Minor);
    const share = (minor: number): string =>
      amountText(percent(manner, shareOf(minor as Minor, whole) / PPM));
    const reached = share((now[i] ?? 0) + (billed[i] ?? 0));
    const values = { text, share: reached, before: share(billed[i] ?? 0) };
    return say(manner.locale, billed[i] ? 'billing.partMoreLine' : 'billing.partLine', values).slice(0, 300);
  });
  const totals = totalsOf(part);
  if (part.lines.length === 0 || totals.toPayMinor <= 0) refuse('PARTIAL_NOTHING', {});
  checkPrepaidAbove(ctx, job.id, totalsOf(bill).toPayMinor, totals.toPayMinor);
  const { quoteId, letter } = option;
  const made = newInvoice(ctx, {
    kind: 'partial',
    jobId: job.id,
    customerId: job.payerId ?? job.customerId,
    bill: part,
    totals,
    progress: {
      ...{ quoteId, letter, wholeMinor: totalsOf(bill).toPayMinor },
      ...progressSoFar(ctx, job.id),
    },
  });
  return { invoiceId: made.id };
}
