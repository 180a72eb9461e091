import type { ReadCtx, WriteCtx } from '../../context.ts';
import { nextNumber } from '../../db/sequence.ts';
import { refuse } from '../../shared/errors.ts';
import type { CustomerId, InvoiceId, JobId, PersonId } from '../../shared/ids.ts';
import { localDayOf } from '../../shared/time.ts';
import type { LocalDay, Minor } from '../../shared/units.ts';
import type { PaymentKind, PaymentWay, SurplusKind } from '../../shared/views/billing.ts';
import type { TakenMoney } from '../../shared/views/billingReports.ts';
import { knownJob, knownPerson } from '../../views/known.ts';
import { shopOf } from '../../views/shop.ts';
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
  readonly customerId: CustomerId;
  readonly receipt: number;
  readonly jobId?: JobId | null;
  readonly personId?: PersonId | null;
  readonly ofPaymentId?: string;
  readonly note?: string;
};

/** Books one row of money, and says what it settles. */
export function bookMoney(ctx: WriteCtx, row: MoneyRow): string {
  const id = ctx.newId<string>();
  addPayment(ctx.db, {
    id,
    ...row,
    note: row.note ?? '',
    atMs: ctx.now,
    localDay: todayOf(ctx),
    takenBy: ctx.actor?.personId ?? null,
  });
  ctx.changed(id, row.kind);
  return id;
}

export function settleWith(ctx: WriteCtx, paymentId: string, invoiceId: InvoiceId, amountMinor: Minor): void {
  addAllocation(ctx.db, { paymentId, invoiceId, amountMinor, atMs: ctx.now, localDay: todayOf(ctx) });
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
 * all owed must be named.
 * @throws MONEY_ABOVE_OWED · INVOICE_NOT_ISSUED · INVOICES_OF_SEVERAL · DEPOSIT_WHERE_TO · DEPOSIT_BILLED ·
 * NOT_FOUND
 */
export function takePayment(ctx: WriteCtx, input: PaymentInput): TakenMoney {
  const rows = [...new Set(input.invoiceIds)].map((id) => invoiceOf(ctx.db, id));
  const first = rows[0];
  if (!first || rows.some((r) => r.number === null || r.kind === 'credit'))
    return refuse('INVOICE_NOT_ISSUED', {});
  if (rows.some((r) => r.customerId !== first.customerId)) refuse('INVOICES_OF_SEVERAL', {});
  const owed = rows.map((row) => ({ id: row.id, owedMinor: owedNow(ctx, row) }));
  const plan = layMoney(input.amountMinor, owed, input.surplus);
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
  }
  if (plan.surplus)
    bookSurplus(ctx, { ...common, amountMinor: plan.surplusMinor }, plan.surplus, input, first.jobId);
  const left = sum(rows.map((row) => Math.max(0, owedNow(ctx, row)))) as Minor;
  return { receipt, appliedMinor: applied, surplusMinor: plan.surplusMinor, owedMinor: left };
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
  for (const [id, amount] of shares(held, input.amountMinor)) settleWith(ctx, id, row.id, amount);
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
 * @throws REFUND_ABOVE_PAID · INVOICE_NOT_ISSUED
 */
export function refund(ctx: WriteCtx, input: RefundInput): { readonly receipt: number } {
  const receipt = nextNumber(ctx.db, 'receipt');
  const back = { kind: 'refund', way: input.way, receipt, note: input.note } as const;
  if (input.from === 'invoice') {
    const row = paidBackOn(ctx, input.id as InvoiceId);
    checkRefund(input.amountMinor, (-owedNow(ctx, row) || 0) as Minor);
    const amountMinor = -input.amountMinor as Minor;
    const id = bookMoney(ctx, { ...back, amountMinor, customerId: row.customerId, jobId: row.jobId });
    settleWith(ctx, id, row.id, amountMinor);
    return { receipt };
  }
  const jobId = input.from === 'deposit' ? (input.id as JobId) : null;
  const held = jobId ? heldDeposits(ctx.db, jobId) : heldCredits(ctx.db, input.id as CustomerId);
  giveBack(ctx, held, input.amountMinor, { way: input.way, receipt, jobId, note: input.note });
  return { receipt };
}

/** Gives held money back, oldest first. @throws REFUND_ABOVE_PAID */
export function giveBack(
  ctx: WriteCtx,
  held: readonly HeldMoney[],
  amountMinor: Minor,
  how: {
    readonly way: PaymentWay;
    readonly receipt: number;
    readonly jobId: JobId | null;
    readonly note: string;
  },
): void {
  checkRefund(amountMinor, sum(held.map((h) => h.leftMinor)) as Minor);
  for (const [id, amount] of shares(held, amountMinor)) {
    const customerId = held.find((h) => h.id === id)?.customerId;
    if (!customerId) continue;
    bookMoney(ctx, { ...how, kind: 'refund', amountMinor: -amount as Minor, customerId, ofPaymentId: id });
  }
}

/** Takes an amount from held money, oldest first. */
export function shares(held: readonly HeldMoney[], amountMinor: Minor): (readonly [string, Minor])[] {
  const parts: (readonly [string, Minor])[] = [];
  let left: number = amountMinor;
  for (const row of held) {
    const take = Math.min(left, row.leftMinor);
    if (take > 0) parts.push([row.id, take as Minor]);
    left -= take;
  }
  return parts;
}
