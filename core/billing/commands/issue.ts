import type { ReadCtx, WriteCtx } from '../../context.ts';
import type { Bill, BillTotals } from '../../shared/bill.ts';
import { refuse } from '../../shared/errors.ts';
import type { InvoiceId, JobId } from '../../shared/ids.ts';
import { addLocalDays, localDayOf } from '../../shared/time.ts';
import type { EpochMs, LocalDay, Minor } from '../../shared/units.ts';
import { type BilledJob, billedJob, billedVehicle, partyOf, sellerOf } from '../../views/billingParty.ts';
import { wasStopped } from '../../views/billingWork.ts';
import { documentGaps } from '../../views/documentGaps.ts';
import { shopOf } from '../../views/shop.ts';
import { netOfJob } from '../rules/collective.ts';
import { deductedTotals, deducting, type Prepaid } from '../rules/deposit.ts';
import { confirmedLast, type DateChoice, issueDay, nextDocumentNumber } from '../rules/numbers.ts';
import { isPart, isSplit } from '../rules/split.ts';
import { netOfShare } from '../rules/taxShares.ts';
import { checkBill, sum } from '../rules/totals.ts';
import { isAheadOfWork, takesDeposits } from '../rules/workDone.ts';
import {
  addCollectiveNet,
  addTaxRow,
  billedJobsOf,
  type InvoicePatch,
  type InvoiceRecord,
  invoiceOf,
  openPrepayments,
  saveInvoice,
  saveSeriesCheck,
  seriesEnd,
} from '../store/invoices.ts';
import { addAllocation, heldDeposits } from '../store/payments.ts';
import { tagOf } from './lines.ts';
import { checkPartial, isPartialAhead, keepParts, progressOf } from './partialIssue.ts';
import { checkRest, depositAbove, keepTaken, takenOff } from './takenOff.ts';
import { bookVouchers, checkVouchers, type TakenVoucher, takenVouchers } from './vouchersOff.ts';

/** A draft as it would be issued now: prepayment and partial invoices taken off, deposits laid on it. */
export type FinalFigures = {
  readonly bill: Bill;
  readonly totals: BillTotals;
  readonly prepayments: readonly InvoiceRecord[];
  readonly partials: readonly InvoiceRecord[];
  readonly vouchers: readonly TakenVoucher[];
  readonly prepaidMinor: Minor;
  /** What is taken off as taxed before, but for partial invoices. */
  readonly besides: readonly Prepaid[];
};

/**
 * The figures of a draft with everything that was paid before. An issued document's are its own, and goods beside the
 * work leave deposits and prepayments to the work they were taken for.
 */
export function finalFigures(ctx: ReadCtx, row: InvoiceRecord): FinalFigures {
  const { bill, totals } = row;
  const issued = {
    bill,
    totals,
    prepaidMinor: row.prepaidMinor,
    prepayments: [],
    partials: [],
    vouchers: [],
    besides: [],
  };
  if (row.kind === 'partial' && row.number === null)
    return { ...issued, prepaidMinor: depositAbove(ctx, row) };
  if (row.number !== null || row.kind !== 'invoice') return issued;
  const tag = tagOf(ctx, row);
  const vouchers = takenVouchers(ctx, row.vouchers, tag);
  const jobId = takesDeposits(bill) ? row.jobId : null;
  const { prepayments, partials, prepaid: billed } = takenOff(ctx, row, jobId, tag);
  const prepaid = [...billed, ...vouchers.map((v) => v.prepaid)];
  const besides = prepaid.filter(({ what }) => what !== 'billed');
  const after = deductedTotals(bill, totals, prepaid);
  const held = jobId === null ? 0 : heldFor(ctx, row, jobId);
  const prepaidMinor = Math.max(0, Math.min(held, after.toPayMinor)) as Minor;
  return {
    bill: deducting(bill, prepaid),
    totals: after,
    prepayments,
    partials,
    vouchers,
    prepaidMinor,
    besides,
  };
}

/**
 * Deposits of a job that a document takes. Where two pay, only the owner's part does, as they paid at the counter: what
 * is above it stays held and is theirs to have back.
 */
function heldFor(ctx: ReadCtx, row: InvoiceRecord, jobId: JobId): number {
  if (isSplit(row.bill) && !isPart(row.bill)) return 0;
  return sum(heldDeposits(ctx.db, jobId).map((d) => d.leftMinor));
}

export type Issued = { readonly invoiceId: InvoiceId; readonly number: number; readonly issuedDay: LocalDay };

/**
 * Issues a draft: number, date and figures are fixed for good, deposits held for its job are laid on it.
 * @throws BILL_AHEAD_OF_WORK or, of a partial invoice, PARTIAL_AHEAD_OF_WORK for work that is not done, unless
 * `aheadOfWork` · PARTIAL_REQUOTED · PARTIAL_ABOVE_LINE · PARTIALS_ABOVE · JOB_ALREADY_BILLED · STALE · INVOICE_ISSUED · NOTHING_TO_BILL ·
 * BILL_BELOW_ZERO · SPLIT_PREPAID · TAX_MIXED_OUTSIDE · ISSUE_DATE_BEHIND · ISSUE_DATE_AHEAD · NUMBER_TO_CONFIRM ·
 * VOUCHER_EXPIRED · VOUCHER_SPENT · VOUCHER_OTHER_TAX
 */
export function issueInvoice(
  ctx: WriteCtx,
  input: {
    readonly invoiceId: InvoiceId;
    readonly revision: number;
    readonly date: DateChoice;
    readonly aheadOfWork: boolean;
  },
): Issued {
  const row = invoiceOf(ctx.db, input.invoiceId);
  if (row.number !== null) refuse('INVOICE_ISSUED', { number: row.number });
  if (row.revision !== input.revision) refuse('STALE', { what: 'invoice' });
  const job = row.jobId === null ? null : billedJob(ctx.db, row.jobId);
  if (job && !input.aheadOfWork && ahead(ctx, row, job))
    refuse(row.kind === 'partial' ? 'PARTIAL_AHEAD_OF_WORK' : 'BILL_AHEAD_OF_WORK', {
      job: job.number,
      here: job.state === 'here' || job.state === 'inWork',
    });
  return issueRow(ctx, row, input.date);
}

function ahead(ctx: ReadCtx, row: InvoiceRecord, job: BilledJob): boolean {
  if (row.kind === 'partial') return isPartialAhead(ctx, row);
  return row.kind === 'invoice' && isAheadOfWork(row.bill, job.state, wasStopped(ctx.db, job.id));
}

/** The same for a document that was made in this very transaction. */
export function issueRow(ctx: WriteCtx, row: InvoiceRecord, choice: DateChoice): Issued {
  if (row.bill.lines.length === 0) refuse('NOTHING_TO_BILL', {});
  if (row.kind !== 'credit') checkBill(row.bill);
  checkPrepaid(ctx, row);
  checkPartial(ctx, row);
  const shop = shopOf(ctx.db);
  const end = seriesEnd(ctx.db);
  const number = nextDocumentNumber(end.lastNumber, end.lastOnPaper, end.ask);
  const day = issueDay(localDayOf(ctx.now, shop.zone), end.lastDay, choice);
  const figures = finalFigures(ctx, row);
  checkTaxes(figures.totals);
  checkVouchers(figures);
  checkRest(figures);
  const job = row.jobId ? billedJob(ctx.db, row.jobId) : null;
  const { termsDays, ...customer } = partyOf(ctx.db, row.customerId);
  const terms = hasTerms(row) ? termsDays || shop.settings.billing.termsDays : 0;
  keepTaken(ctx, row.id, figures);
  saveInvoice(ctx.db, row.id, {
    number,
    progress: progressOf(ctx, row),
    ...askedOf(figures),
    parties: {
      seller: sellerOf(ctx.db, tagOf(ctx, row)),
      customer,
      vehicle: job ? billedVehicle(ctx.db, job.vehicleId) : null,
    },
    issuedMs: ctx.now,
    issuedBy: ctx.actor?.personId ?? null,
    issuedDay: day,
    dueDay: addLocalDays(day, terms),
    suppliedDay: suppliedOn(ctx, row, job, day),
  });
  keepTaxes(ctx, row.id, figures.totals);
  keepParts(ctx, row);
  keepNets(ctx, row.id, figures);
  layDeposits(ctx, row, figures.prepaidMinor, day);
  bookVouchers(ctx, { ...row, issuedDay: day }, figures.vouchers);
  ctx.changed(row.id, 'number', 'issuedDay');
  return { invoiceId: row.id, number, issuedDay: day };
}

function askedOf({ bill, totals, prepaidMinor }: FinalFigures): InvoicePatch {
  return { bill, totals, toPayMinor: totals.toPayMinor, prepaidMinor };
}

/** A prepayment is paid as it is taken, a credit note asks for nothing. */
function hasTerms({ kind }: InvoiceRecord): boolean {
  return kind === 'invoice' || kind === 'partial';
}

/** Half a bill takes no prepayment invoice off, so none may wait for that. */
function checkPrepaid(ctx: WriteCtx, row: InvoiceRecord): void {
  if (row.kind !== 'invoice' || row.jobId === null || !isSplit(row.bill)) return;
  if (openPrepayments(ctx.db, row.jobId).length > 0) refuse('SPLIT_PREPAID', {});
}

function keepTaxes(ctx: WriteCtx, invoiceId: InvoiceId, totals: BillTotals): void {
  for (const share of totals.taxes) {
    const { category, ratePpm, name, taxableMinor, taxMinor } = share;
    const netMinor = netOfShare(share) as Minor;
    addTaxRow(ctx.db, { invoiceId, category, ratePpm, name, taxableMinor, taxMinor, netMinor });
  }
}

/** What each job has of a document for several. */
function keepNets(ctx: WriteCtx, invoiceId: InvoiceId, { bill, totals }: FinalFigures): void {
  for (const { jobId } of billedJobsOf(ctx.db, invoiceId)) {
    const netMinor = netOfJob(bill, totals, jobId);
    addCollectiveNet(ctx.db, { invoiceId, jobId, netMinor });
  }
}

/** @source EN 16931-1 BR-O-11: a document outside the scope of tax has no other category */
function checkTaxes(totals: BillTotals): void {
  const outside = totals.taxes.filter((t) => t.category === 'O').length;
  if (outside > 0 && outside < totals.taxes.length) refuse('TAX_MIXED_OUTSIDE', {});
}

/** The day that the work was done; null where money is asked for before it is. */
function suppliedOn(ctx: ReadCtx, row: InvoiceRecord, job: BilledJob | null, day: LocalDay): LocalDay | null {
  if (row.suppliedDay !== null) return row.suppliedDay;
  if (row.kind === 'prepayment' || (job && ahead(ctx, row, job))) return null;
  if (!job || job.readyMs === null) return day;
  const ready = localDayOf(job.readyMs as EpochMs, shopOf(ctx.db).zone);
  return ready > day ? day : ready;
}

function layDeposits(ctx: WriteCtx, row: InvoiceRecord, prepaid: Minor, day: LocalDay): void {
  if (row.jobId === null) return;
  let left: number = prepaid;
  for (const deposit of heldDeposits(ctx.db, row.jobId)) {
    const take = Math.min(left, deposit.leftMinor) as Minor;
    if (take <= 0) return;
    addAllocation(ctx.db, {
      paymentId: deposit.id,
      invoiceId: row.id,
      amountMinor: take,
      atMs: ctx.now,
      localDay: day,
    });
    left -= take;
  }
}

/**
 * What somebody read from the last printed document, where the series is in doubt.
 * @throws PAPER_NUMBER_TOO_LOW · NUMBER_CERTAIN
 */
export function confirmNumber(ctx: WriteCtx, onPaper: number): { readonly next: number } {
  const last = confirmedLast({ ...seriesEnd(ctx.db), hasGaps: documentGaps(ctx.db).length > 0 }, onPaper);
  saveSeriesCheck(ctx.db, false, last);
  ctx.changed('series', 'lastOnPaper');
  return { next: last + 1 };
}
