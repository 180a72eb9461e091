import type { ReadCtx, WriteCtx } from '../../context.ts';
import { nextNumber } from '../../db/sequence.ts';
import { refuse } from '../../shared/errors.ts';
import type { CustomerId, InvoiceId, JobId, PersonId } from '../../shared/ids.ts';
import { localDayOf } from '../../shared/time.ts';
import type { LocalDay, Minor } from '../../shared/units.ts';
import type { PaymentKind, PaymentWay, SurplusKind } from '../../shared/views/billing.ts';
import type { TakenMoney } from '../../shared/views/billingReports.ts';
import { paperTagOf } from '../../views/billingParty.ts';
import { knownJob, knownPerson } from '../../views/known.ts';
import { shopOf } from '../../views/shop.ts';
import { checkCoins, roundedOff } from '../rules/cash.ts';
import { afterShares, shares } from '../rules/held.ts';
import { checkRefund, layMoney, owedOn } from '../rules/owed.ts';
import { sum } from '../rules/totals.ts';
import { creditsOf, type InvoiceRecord, invoiceOf } from '../store/invoices.ts';
import {
  addAllocation,
  addPayment,
  allocatedTo,
  type HeldMoney,
  heldCredits,
  heldDeposits,
} from '../store/payments.ts';
import { jobForDeposit } from './depositJob.ts';

/** Still to pay on an issued document; negative when the shop owes. */
export function owedNow(ctx: Pick<ReadCtx, 'db'>, row: InvoiceRecord): Minor {
  const credits = creditsOf(ctx.db, row.id).map((c) => c.toPayMinor);
  return owedOn(row.toPayMinor, credits, [allocatedTo(ctx.db, row.id)]);
}

/** The document itself; of a credit note the one it corrects, on which is owed what it gives back. */
export function correctedBy(ctx: Pick<ReadCtx, 'db'>, row: InvoiceRecord): InvoiceRecord {
  return row.ofInvoiceId ? invoiceOf(ctx.db, row.ofInvoiceId) : row;
}

/** The document that money goes back on: itself, or the one a credit note corrects. @throws INVOICE_NOT_ISSUED */
export function paidBackOn(ctx: Pick<ReadCtx, 'db'>, id: InvoiceId): InvoiceRecord {
  const row = correctedBy(ctx, invoiceOf(ctx.db, id));
  return row.number === null ? refuse('INVOICE_NOT_ISSUED', {}) : row;
}

export type MoneyRow = {
  readonly kind: PaymentKind;
  readonly way: PaymentWay;
  readonly amountMinor: Minor;
  /** Null = nobody is named: of vouchers. */
  readonly customerId: CustomerId | null;
  readonly receipt: number;
  readonly jobId?: JobId | null;
  readonly personId?: PersonId | null;
  readonly ofPaymentId?: string;
  readonly note?: string;
  /** Left out: today. */
  readonly localDay?: LocalDay;
};

/** Books one row of money, and says what it settles. */
export function bookMoney(ctx: WriteCtx, row: MoneyRow): string {
  const id = ctx.newId<string>();
  addPayment(ctx.db, {
    id,
    ...row,
    note: row.note ?? '',
    locale: paperTagOf(ctx.db, row.customerId),
    atMs: ctx.now,
    localDay: row.localDay ?? todayOf(ctx),
    takenBy: ctx.actor?.personId ?? null,
  });
  ctx.changed(id, row.kind);
  return id;
}

export function settleWith(
  ctx: WriteCtx,
  paymentId: string,
  invoiceId: InvoiceId,
  amountMinor: Minor,
  localDay: LocalDay = todayOf(ctx),
): void {
  addAllocation(ctx.db, { paymentId, invoiceId, amountMinor, atMs: ctx.now, localDay });
}

export function todayOf(ctx: WriteCtx): LocalDay {
  return localDayOf(ctx.now, shopOf(ctx.db).zone);
}

export type PaymentInput = {
  readonly invoiceIds: readonly InvoiceId[];
  readonly amountMinor: Minor;
  readonly way: Exclude<PaymentWay, 'account'>;
  readonly surplus: SurplusKind | null;
  /** Whose tip; null = shared. */
  readonly tipPersonId: PersonId | null;
  /** The job a surplus deposit is for; null = the first document's. */
  readonly depositJobId: JobId | null;
  readonly note: string;
};

/**
 * Takes money for one or several documents of one payer, in the order given; one named twice counts once. What is above
 * all owed must be named. Cash that comes to all that is owed, as the shop rounds it, settles it.
 * @throws CASH_NOT_ROUND · MONEY_ABOVE_OWED · INVOICE_NOT_ISSUED · INVOICES_OF_SEVERAL · DEPOSIT_WHERE_TO · DEPOSIT_BILLED ·
 * NOT_FOUND
 */
export function takePayment(ctx: WriteCtx, input: PaymentInput): TakenMoney {
  const rows = [...new Set(input.invoiceIds)].map((id) => invoiceOf(ctx.db, id));
  const first = rows[0];
  if (!first || rows.some((r) => r.number === null || r.kind === 'credit'))
    return refuse('INVOICE_NOT_ISSUED', {});
  if (rows.some((r) => r.customerId !== first.customerId)) refuse('INVOICES_OF_SEVERAL', {});
  const owed = rows.map((row) => ({ id: row.id, owedMinor: owedNow(ctx, row) }));
  const step = cashStepOf(ctx);
  checkCoins(input.way, input.amountMinor, step);
  const rounding = roundedOff(input.way, sumOwed(owed), input.amountMinor, step);
  const plan = layMoney((input.amountMinor + Math.min(0, rounding)) as Minor, owed, input.surplus);
  const receipt = nextNumber(ctx.db, 'receipt');
  const common = { way: input.way, customerId: first.customerId, receipt, note: input.note } as const;
  const applied = (input.amountMinor - plan.surplusMinor) as Minor;
  if (applied > 0) {
    const paymentId = bookMoney(ctx, {
      ...common,
      kind: 'payment',
      amountMinor: applied,
      jobId: first.jobId,
    });
    for (const part of plan.parts) settleWith(ctx, paymentId, part.id, part.amountMinor);
    if (rounding !== 0) settleRounding(ctx, { ...common, jobId: first.jobId }, paymentId, rows, rounding);
  }
  if (plan.surplus)
    bookSurplus(ctx, { ...common, amountMinor: plan.surplusMinor }, plan.surplus, input, first.jobId);
  const left = sum(rows.map((row) => Math.max(0, owedNow(ctx, row)))) as Minor;
  return { receipt, appliedMinor: applied, surplusMinor: plan.surplusMinor, owedMinor: left };
}

/** The smallest coin the shop gives. */
export function cashStepOf(ctx: Pick<ReadCtx, 'db'>): number {
  return shopOf(ctx.db).settings.billing.cashStepMinor;
}

function sumOwed(owed: readonly { readonly owedMinor: Minor }[]): Minor {
  return sum(owed.map((o) => Math.max(0, o.owedMinor))) as Minor;
}

/** Books what coins could not make: on what the money left open, or against what it was above the last document. */
function settleRounding(
  ctx: WriteCtx,
  row: Omit<MoneyRow, 'kind' | 'way' | 'amountMinor'>,
  paymentId: string,
  documents: readonly InvoiceRecord[],
  roundingMinor: Minor,
): void {
  const id = bookMoney(ctx, { ...row, kind: 'rounding', way: 'account', amountMinor: roundingMinor });
  const last = documents.at(-1);
  if (roundingMinor > 0) {
    const open = documents.map((d) => ({ id: d.id, owedMinor: owedNow(ctx, d) }));
    for (const part of layMoney(roundingMinor, open, null).parts)
      settleWith(ctx, id, part.id, part.amountMinor);
  } else if (last) {
    settleWith(ctx, paymentId, last.id, -roundingMinor as Minor);
    settleWith(ctx, id, last.id, roundingMinor);
  }
}

function bookSurplus(
  ctx: WriteCtx,
  row: Omit<MoneyRow, 'kind'>,
  kind: SurplusKind,
  input: PaymentInput,
  firstJobId: JobId | null,
): void {
  const jobId = knownJob(ctx.db, input.depositJobId) ?? firstJobId;
  if (kind === 'deposit') jobForDeposit(ctx, jobId);
  const personId = kind === 'tip' ? knownPerson(ctx.db, input.tipPersonId) : null;
  bookMoney(ctx, { ...row, kind, jobId, personId });
}

/** Lays a customer's credit on account on a document. @throws REFUND_ABOVE_PAID when the credit is smaller */
export function applyCredit(
  ctx: WriteCtx,
  input: { readonly invoiceId: InvoiceId; readonly amountMinor: Minor },
): { readonly owedMinor: Minor } {
  const row = invoiceOf(ctx.db, input.invoiceId);
  if (row.number === null || row.kind === 'credit') refuse('INVOICE_NOT_ISSUED', {});
  const held = heldCredits(ctx.db, row.customerId);
  checkRefund(input.amountMinor, sum(held.map((h) => h.leftMinor)) as Minor);
  layMoney(input.amountMinor, [{ id: row.id, owedMinor: owedNow(ctx, row) }], null);
  for (const [{ id }, amount] of shares(held, input.amountMinor)) settleWith(ctx, id, row.id, amount);
  ctx.changed(row.id, 'allocation');
  return { owedMinor: owedNow(ctx, row) };
}

export type RefundInput = {
  readonly from: 'invoice' | 'deposit' | 'credit';
  /** Id of the invoice, the job of the deposit, or the customer of the credit. */
  readonly id: string;
  readonly amountMinor: Minor;
  readonly way: Exclude<PaymentWay, 'account'>;
  readonly note: string;
};

/**
 * Pays money back: what the shop owes on a document (after a credit note), a held deposit, or a credit on account.
 * Cash that comes to all the shop owes on a document, as it is rounded, settles it.
 * @throws CASH_NOT_ROUND · REFUND_ABOVE_PAID · INVOICE_NOT_ISSUED
 */
export function refund(ctx: WriteCtx, input: RefundInput): { readonly receipt: number } {
  const receipt = nextNumber(ctx.db, 'receipt');
  const back = { kind: 'refund', way: input.way, receipt, note: input.note } as const;
  if (input.from === 'invoice') {
    const row = paidBackOn(ctx, input.id as InvoiceId);
    refundOn(ctx, row, input, back);
    return { receipt };
  }
  const jobId = input.from === 'deposit' ? (input.id as JobId) : null;
  const held = jobId ? heldDeposits(ctx.db, jobId) : heldCredits(ctx.db, input.id as CustomerId);
  giveBack(ctx, held, input.amountMinor, { way: input.way, receipt, jobId, note: input.note });
  return { receipt };
}

function refundOn(
  ctx: WriteCtx,
  row: InvoiceRecord,
  input: RefundInput,
  back: Pick<MoneyRow, 'kind' | 'way' | 'receipt' | 'note'>,
): void {
  const step = cashStepOf(ctx);
  const owedMinor = (-owedNow(ctx, row) || 0) as Minor;
  const rounding = roundedOff(input.way, owedMinor, input.amountMinor, step);
  checkCoins(input.way, input.amountMinor, step);
  if (rounding === 0) checkRefund(input.amountMinor, owedMinor);
  const common = { customerId: row.customerId, jobId: row.jobId };
  const id = bookMoney(ctx, { ...back, ...common, amountMinor: -input.amountMinor as Minor });
  settleWith(ctx, id, row.id, -input.amountMinor as Minor);
  if (rounding === 0) return;
  const amountMinor = -rounding as Minor;
  const off = bookMoney(ctx, { ...back, ...common, kind: 'rounding', way: 'account', amountMinor });
  settleWith(ctx, off, row.id, amountMinor);
}

type HowBack = {
  readonly way: PaymentWay;
  readonly receipt: number;
  readonly jobId: JobId | null;
  readonly note: string;
};

/**
 * Gives held money back, oldest first. Cash that comes to all that is held, as coins make it, gives all of it back: what
 * coins could not make is booked as rounding.
 * @throws CASH_NOT_ROUND · REFUND_ABOVE_PAID
 */
export function giveBack(ctx: WriteCtx, held: readonly HeldMoney[], amountMinor: Minor, how: HowBack): void {
  const step = cashStepOf(ctx);
  const heldMinor = sum(held.map((h) => h.leftMinor)) as Minor;
  const rounding = roundedOff(how.way, heldMinor, amountMinor, step);
  checkCoins(how.way, amountMinor, step);
  if (rounding === 0) checkRefund(amountMinor, heldMinor);
  const given = shares(held, amountMinor);
  for (const [of, share] of given)
    bookBack(ctx, of, { ...how, kind: 'refund', amountMinor: -share as Minor });
  // Above zero the shop keeps a rest of what is held; below zero it gave more than that, with the first of it.
  const off = { ...how, kind: 'rounding', way: 'account' } as const;
  const [first] = held;
  if (rounding < 0 && first) {
    bookBack(ctx, first, { ...how, kind: 'refund', amountMinor: rounding });
    bookBack(ctx, first, { ...off, amountMinor: -rounding as Minor });
  }
  const kept = rounding > 0 ? shares(afterShares(held, given), rounding) : [];
  for (const [of, share] of kept) bookBack(ctx, of, { ...off, amountMinor: -share as Minor });
}

function bookBack(
  ctx: WriteCtx,
  { id, customerId }: HeldMoney,
  row: HowBack & Pick<MoneyRow, 'kind' | 'amountMinor'>,
): void {
  bookMoney(ctx, { ...row, customerId, ofPaymentId: id });
}
