import type { WriteCtx } from '../../context.ts';
import { nextNumber } from '../../db/sequence.ts';
import { refuse } from '../../shared/errors.ts';
import type { InvoiceId, JobId } from '../../shared/ids.ts';
import type { TaxCode } from '../../shared/tax.ts';
import { paperLocale } from '../../shared/text/papers.ts';
import { say } from '../../shared/text/say.ts';
import type { Minor } from '../../shared/units.ts';
import type { PaymentWay } from '../../shared/views/billing.ts';
import { billedJob, billedVehicle, paperTagOf, payerTagOf } from '../../views/billingParty.ts';
import { depositHeldFor } from '../../views/heldMoney.ts';
import { shopOf } from '../../views/shop.ts';
import { type DepositOutcome, settle } from '../rules/cancellation.ts';
import { checkCoins } from '../rules/cash.ts';
import { checkDeposit, prepaymentBill } from '../rules/deposit.ts';
import { shares } from '../rules/held.ts';
import type { DateChoice } from '../rules/numbers.ts';
import { agreedLine } from '../rules/quoteLines.ts';
import { isSplit } from '../rules/split.ts';
import { sum, totalsOf } from '../rules/totals.ts';
import { openPrepayments } from '../store/invoices.ts';
import { heldDeposits } from '../store/payments.ts';
import { creditInvoice } from './credits.ts';
import { jobForDeposit, quotedFor } from './depositJob.ts';
import { newInvoice, standingForWork } from './invoices.ts';
import { issueRow } from './issue.ts';
import { lineTaxOn } from './lines.ts';
import { bookMoney, cashStepOf, giveBack, owedNow, settleWith, todayOf } from './payments.ts';

export type DepositInput = {
  readonly jobId: JobId;
  readonly amountMinor: Minor;
  readonly way: Exclude<PaymentWay, 'account'>;
  readonly note: string;
  /** It is meant to go above what the quote comes to. */
  readonly aboveQuote: boolean;
  /** Answers a doubtful date of the prepayment invoice. */
  readonly date: DateChoice;
};
export type TakenDeposit = { readonly receipt: number; readonly invoiceId: InvoiceId | null };

/**
 * Takes a deposit for a job: a plain payment that is held, or, when the shop has set so, a prepayment invoice with
 * tax that is paid at once.
 * @throws CASH_NOT_ROUND · DEPOSIT_WHERE_TO · DEPOSIT_BILLED · DEPOSIT_SPLIT for a prepayment invoice while a half of a
 * split bill is a draft · DEPOSIT_ABOVE_QUOTE · ISSUE_DATE_BEHIND · ISSUE_DATE_AHEAD · NUMBER_TO_CONFIRM
 */
export function takeDeposit(ctx: WriteCtx, input: DepositInput): TakenDeposit {
  const job = jobForDeposit(ctx, input.jobId);
  const shop = shopOf(ctx.db);
  const form = shop.settings.billing.depositForm;
  if (form === 'prepaymentInvoice') checkUnsplit(ctx, job.id);
  checkCoins(input.way, input.amountMinor, cashStepOf(ctx));
  if (!input.aboveQuote)
    checkDeposit(input.amountMinor, depositHeldFor(ctx.db, job.id), quotedFor(ctx.db, job.id));
  const receipt = nextNumber(ctx.db, 'receipt');
  const customerId = job.payerId ?? job.customerId;
  const row = {
    way: input.way,
    amountMinor: input.amountMinor,
    customerId,
    receipt,
    jobId: job.id,
    note: input.note,
  };
  if (form === 'payment') {
    bookMoney(ctx, { ...row, kind: 'deposit' });
    return { receipt, invoiceId: null };
  }
  const vehicle = billedVehicle(ctx.db, job.vehicleId).makeModel;
  const locale = paperTagOf(ctx.db, customerId);
  const text = say(paperLocale(locale), 'billing.prepaymentLine', { job: job.number, vehicle });
  const bill = prepaymentBill(input.amountMinor, text, lineTaxOn(ctx, 'standard', todayOf(ctx)));
  const made = newInvoice(ctx, {
    kind: 'prepayment',
    jobId: job.id,
    customerId,
    bill,
    totals: totalsOf(bill),
  });
  issueRow(ctx, made, input.date);
  settleWith(ctx, bookMoney(ctx, { ...row, kind: 'payment' }), made.id, input.amountMinor);
  return { receipt, invoiceId: made.id };
}

/** A prepayment invoice is taken off the whole bill, not off halves. */
function checkUnsplit(ctx: WriteCtx, jobId: JobId): void {
  if (standingForWork(ctx.db, jobId).some((row) => row.number === null && isSplit(row.bill)))
    refuse('DEPOSIT_SPLIT', {});
}

export type SettleInput = {
  readonly jobId: JobId;
  readonly outcome: DepositOutcome;
  /** With tax. null: the whole deposit when it is kept, nothing otherwise. */
  readonly feeMinor: Minor | null;
  /** Tax of the fee: a matter of local law. */
  readonly feeTax: TaxCode;
  readonly way: Exclude<PaymentWay, 'account'>;
  /** The job that a moved deposit goes to. */
  readonly toJobId: JobId | null;
  /** Answers a doubtful date of the documents this issues. */
  readonly date: DateChoice;
};
export type SettledDeposit = {
  readonly feeInvoiceId: InvoiceId | null;
  readonly feeMinor: Minor;
  readonly returnedMinor: Minor;
  readonly movedMinor: Minor;
};

/**
 * Ends the deposit of a job that will not be done: kept as a fee (with its own invoice), paid back, or moved to
 * another job. Prepayment invoices are credited first, so that their tax is given back with them.
 * @throws NO_DEPOSIT_HELD · DEPOSIT_WHERE_TO without an open job to move to · DEPOSIT_BILLED when that is billed ·
 * ISSUE_DATE_BEHIND · ISSUE_DATE_AHEAD · NUMBER_TO_CONFIRM
 */
export function settleDeposit(ctx: WriteCtx, input: SettleInput): SettledDeposit {
  freePrepayments(ctx, input.jobId, input.date);
  const held = heldDeposits(ctx.db, input.jobId);
  const plan = settle(sum(held.map((h) => h.leftMinor)) as Minor, input.outcome, input.feeMinor);
  const feeInvoiceId = plan.feeMinor > 0 ? chargeFee(ctx, input, plan.feeMinor) : null;
  if (plan.returnMinor > 0) {
    const receipt = nextNumber(ctx.db, 'receipt');
    const how = { way: input.way, receipt, jobId: input.jobId, note: '' };
    giveBack(ctx, heldDeposits(ctx.db, input.jobId), plan.returnMinor, how);
  }
  if (plan.moveMinor > 0) moveDeposit(ctx, input, plan.moveMinor);
  return {
    feeInvoiceId,
    feeMinor: plan.feeMinor,
    returnedMinor: plan.returnMinor,
    movedMinor: plan.moveMinor,
  };
}

/** Credits what stands of the job's prepayment invoices and holds what was paid on it as plain deposits. */
function freePrepayments(ctx: WriteCtx, jobId: JobId, date: DateChoice): void {
  for (const row of openPrepayments(ctx.db, jobId)) {
    creditInvoice(ctx, { invoiceId: row.id, lines: null, reason: '', date });
    const freed = -owedNow(ctx, row) as Minor;
    if (freed <= 0) continue;
    const receipt = nextNumber(ctx.db, 'receipt');
    const common = { way: 'account', customerId: row.customerId, receipt, jobId } as const;
    const back = bookMoney(ctx, { ...common, kind: 'refund', amountMinor: -freed as Minor });
    settleWith(ctx, back, row.id, -freed as Minor);
    bookMoney(ctx, { ...common, kind: 'deposit', amountMinor: freed });
  }
}

function chargeFee(ctx: WriteCtx, input: SettleInput, feeMinor: Minor): InvoiceId {
  const job = billedJob(ctx.db, input.jobId);
  const locale = payerTagOf(ctx.db, job);
  const text = say(paperLocale(locale), 'billing.feeLine', { job: job.number });
  const tax = lineTaxOn(ctx, input.feeTax, todayOf(ctx));
  const bill = { lines: [agreedLine('fee', text, 0, feeMinor, tax)], extras: [], taxIncluded: true };
  const made = newInvoice(ctx, {
    kind: 'invoice',
    jobId: job.id,
    customerId: job.payerId ?? job.customerId,
    bill,
    totals: totalsOf(bill),
  });
  issueRow(ctx, made, input.date);
  return made.id;
}

function moveDeposit(ctx: WriteCtx, input: SettleInput, amountMinor: Minor): void {
  if (input.toJobId === input.jobId) refuse('DEPOSIT_WHERE_TO', {});
  const to = jobForDeposit(ctx, input.toJobId);
  const receipt = nextNumber(ctx.db, 'receipt');
  const held = heldDeposits(ctx.db, input.jobId);
  for (const [{ id, customerId }, amount] of shares(held, amountMinor)) {
    const common = { way: 'account', customerId: customerId ?? to.customerId, receipt } as const;
    bookMoney(ctx, {
      ...common,
      kind: 'refund',
      amountMinor: -amount as Minor,
      jobId: input.jobId,
      ofPaymentId: id,
    });
    bookMoney(ctx, { ...common, kind: 'deposit', amountMinor: amount, jobId: to.id });
  }
}
