import type { WriteCtx } from '../../context.ts';
import { nextNumber } from '../../db/sequence.ts';
import { refuse } from '../../shared/errors.ts';
import type { CustomerId, InvoiceId, VoucherId } from '../../shared/ids.ts';
import { paperLocale } from '../../shared/text/papers.ts';
import { say } from '../../shared/text/say.ts';
import type { Minor } from '../../shared/units.ts';
import type { PaymentWay } from '../../shared/views/billing.ts';
import type { VoucherEntryKind, VoucherOff } from '../../shared/views/vouchers.ts';
import { paperTagOf, partyOf } from '../../views/billingParty.ts';
import { shopOf } from '../../views/shop.ts';
import { checkCoins } from '../rules/cash.ts';
import type { DateChoice } from '../rules/numbers.ts';
import { checkRefund, layMoney } from '../rules/owed.ts';
import { agreedLine } from '../rules/quoteLines.ts';
import { totalsOf } from '../rules/totals.ts';
import { checkSpend, lastDayOf } from '../rules/vouchers.ts';
import { type InvoiceRecord, invoiceOf, saveInvoice } from '../store/invoices.ts';
import {
  addVoucher,
  addVoucherEntry,
  eraseVoucherNames,
  usesOn,
  type VoucherRecord,
  voucherNumbered,
} from '../store/vouchers.ts';
import { newInvoice } from './invoices.ts';
import { finalFigures, issueRow } from './issue.ts';
import { lineTaxOn } from './lines.ts';
import { bookMoney, cashStepOf, giveBack, owedNow, settleWith, todayOf } from './payments.ts';

export type SellInput = {
  readonly customerId: CustomerId;
  readonly amountMinor: Minor;
  readonly way: Exclude<PaymentWay, 'account'>;
  readonly forName: string;
  readonly note: string;
  /** Answers a doubtful date of the invoice of a single-purpose one. */
  readonly date: DateChoice;
};
export type SoldVoucher = {
  readonly voucherId: VoucherId;
  readonly number: number;
  readonly receipt: number;
  readonly invoiceId: InvoiceId | null;
};

/**
 * Sells a voucher for money, as the shop's are: multi-purpose, its money is held and not taxed yet; single-purpose, its
 * sale is taxed by an invoice that is paid at once.
 * @throws CASH_NOT_ROUND · NO_TAX · NOT_FOUND · ISSUE_DATE_BEHIND · ISSUE_DATE_AHEAD · NUMBER_TO_CONFIRM
 * @source Directive (EU) 2016/1065: articles 30a, 30b, 73a of Directive 2006/112/EC
 */
export function sellVoucher(ctx: WriteCtx, input: SellInput): SoldVoucher {
  const { id: customerId } = partyOf(ctx.db, input.customerId);
  checkCoins(input.way, input.amountMinor, cashStepOf(ctx));
  const { voucherPurpose: purpose, voucherDays } = shopOf(ctx.db).settings.billing;
  const voucherId = ctx.newId<VoucherId>();
  ctx.changed(voucherId, 'number');
  const number = nextNumber(ctx.db, 'voucher');
  const receipt = nextNumber(ctx.db, 'receipt');
  const { amountMinor, way, note } = input;
  const money = { amountMinor, way, note, customerId, receipt };
  const sale = purpose === 'single' ? taxedSale(ctx, money, number, input.date) : null;
  const paymentId = sale ? null : bookMoney(ctx, { ...money, kind: 'voucher' });
  const soldDay = sale?.issuedDay ?? todayOf(ctx);
  addVoucher(ctx.db, {
    ...{ id: voucherId, number, purpose, customerId, paymentId, soldDay },
    valueMinor: amountMinor,
    forName: input.forName,
    invoiceId: sale?.invoiceId ?? null,
    expiresDay: lastDayOf(soldDay, voucherDays),
    soldMs: ctx.now,
    soldBy: ctx.actor?.personId ?? null,
  });
  const netMinor = sale?.netMinor ?? (0 as Minor);
  bookEntry(ctx, { voucherId, kind: 'sold', amountMinor, netMinor, invoiceId: sale?.invoiceId ?? null });
  return { voucherId, number, receipt, invoiceId: sale?.invoiceId ?? null };
}

type Sale = Pick<SellInput, 'amountMinor' | 'way' | 'note' | 'customerId'> & { readonly receipt: number };

function taxedSale(
  ctx: WriteCtx,
  money: Sale,
  number: number,
  date: DateChoice,
): { readonly invoiceId: InvoiceId; readonly netMinor: Minor; readonly issuedDay: VoucherRecord['soldDay'] } {
  const said = paperLocale(paperTagOf(ctx.db, money.customerId));
  const text = say(said, 'billing.voucherLine', { number });
  const tax = lineTaxOn(ctx, 'standard', todayOf(ctx));
  const bill = {
    lines: [agreedLine('voucher', text, 0, money.amountMinor, tax)],
    extras: [],
    taxIncluded: true,
  };
  const totals = totalsOf(bill);
  const { customerId } = money;
  const made = newInvoice(ctx, { kind: 'invoice', jobId: null, customerId, bill, totals });
  const { issuedDay } = issueRow(ctx, made, date);
  settleWith(ctx, bookMoney(ctx, { ...money, kind: 'payment' }), made.id, money.amountMinor);
  return { invoiceId: made.id, netMinor: totals.netMinor, issuedDay };
}

function bookEntry(
  ctx: WriteCtx,
  entry: {
    readonly voucherId: VoucherId;
    readonly kind: VoucherEntryKind;
    readonly amountMinor: number;
    readonly netMinor: number;
    readonly invoiceId: InvoiceId | null;
  },
): void {
  const { amountMinor, netMinor, ...rest } = entry;
  const byId = ctx.actor?.personId ?? null;
  const sums = { amountMinor: amountMinor as Minor, netMinor: netMinor as Minor };
  addVoucherEntry(ctx.db, { ...rest, ...sums, atMs: ctx.now, localDay: todayOf(ctx), byId });
  ctx.changed(entry.voucherId, entry.kind);
}

export type UseInput = {
  readonly number: number;
  readonly invoiceId: InvoiceId;
  readonly amountMinor: Minor;
};

/**
 * Uses a voucher on a document. A multi-purpose one pays an issued invoice. A single-purpose one was taxed when it was
 * sold, so it comes off a draft, at its own rate, when that is issued.
 * @throws VOUCHER_UNKNOWN · VOUCHER_EXPIRED · VOUCHER_SPENT · VOUCHER_ON_DRAFT · INVOICE_NOT_ISSUED · MONEY_ABOVE_OWED
 */
export function useVoucher(ctx: WriteCtx, input: UseInput): { readonly leftMinor: Minor } {
  const voucher = voucherNumbered(ctx.db, input.number);
  const row = invoiceOf(ctx.db, input.invoiceId);
  checkSpend(voucher, input.amountMinor, todayOf(ctx));
  if (voucher.purpose === 'single') takeOff(ctx, voucher, row, input.amountMinor);
  else payWith(ctx, voucher, row, input.amountMinor);
  return { leftMinor: (voucher.leftMinor - input.amountMinor) as Minor };
}

function payWith(ctx: WriteCtx, voucher: VoucherRecord, row: InvoiceRecord, amountMinor: Minor): void {
  const { paymentId } = voucher;
  if (row.number === null || row.kind === 'credit' || !paymentId) refuse('INVOICE_NOT_ISSUED', {});
  layMoney(amountMinor, [{ id: row.id, owedMinor: owedNow(ctx, row) }], null);
  settleWith(ctx, paymentId, row.id, amountMinor);
  const entry = { voucherId: voucher.id, kind: 'used', invoiceId: row.id } as const;
  bookEntry(ctx, { ...entry, amountMinor: -amountMinor, netMinor: 0 });
}

/** Notes on a draft what it takes off; the voucher itself is only touched when the draft is issued. */
function takeOff(ctx: WriteCtx, voucher: VoucherRecord, row: InvoiceRecord, amountMinor: Minor): void {
  const { number } = voucher;
  if (row.number !== null || row.kind !== 'invoice') refuse('VOUCHER_ON_DRAFT', { number });
  const others = row.vouchers.filter((v) => v.voucherId !== voucher.id);
  const owedMinor = finalFigures(ctx, { ...row, vouchers: others }).totals.toPayMinor;
  if (amountMinor > owedMinor) refuse('MONEY_ABOVE_OWED', { owedMinor, aboveMinor: amountMinor - owedMinor });
  saveInvoice(ctx.db, row.id, { vouchers: [...others, { voucherId: voucher.id, amountMinor }] });
  ctx.changed(row.id, 'vouchers');
}

/** Takes a voucher off a draft again. @throws INVOICE_ISSUED */
export function leaveVoucher(
  ctx: WriteCtx,
  input: Pick<UseInput, 'number' | 'invoiceId'>,
): { readonly invoiceId: InvoiceId } {
  const row = invoiceOf(ctx.db, input.invoiceId);
  if (row.number !== null) refuse('INVOICE_ISSUED', { number: row.number });
  const { id } = voucherNumbered(ctx.db, input.number);
  const vouchers = row.vouchers.filter((v: VoucherOff) => v.voucherId !== id);
  saveInvoice(ctx.db, row.id, { vouchers });
  ctx.changed(row.id, 'vouchers');
  return { invoiceId: row.id };
}

/**
 * Gives a multi-purpose voucher back what it paid on a document on which the shop now owes (after a credit note). What a
 * single-purpose one took off comes back with the credit note itself.
 * @throws VOUCHER_UNKNOWN · REFUND_ABOVE_PAID · VOUCHER_TAXED
 */
export function returnToVoucher(ctx: WriteCtx, input: UseInput): { readonly leftMinor: Minor } {
  const voucher = voucherNumbered(ctx.db, input.number);
  const row = invoiceOf(ctx.db, input.invoiceId);
  if (voucher.paymentId === null) return refuse('VOUCHER_TAXED', { number: voucher.number });
  const used = usesOn(ctx.db, row.id).find((u) => u.voucherId === voucher.id)?.amountMinor ?? 0;
  checkRefund(input.amountMinor, Math.min(-used, -owedNow(ctx, row)) as Minor);
  settleWith(ctx, voucher.paymentId, row.id, -input.amountMinor as Minor);
  const entry = { voucherId: voucher.id, kind: 'returned', invoiceId: row.id } as const;
  bookEntry(ctx, { ...entry, amountMinor: input.amountMinor, netMinor: 0 });
  return { leftMinor: (voucher.leftMinor + input.amountMinor) as Minor };
}

/**
 * Pays back what is left of a multi-purpose voucher, or a part of it. A single-purpose one was taxed by an invoice, and
 * a credit note of that takes it back.
 * @throws VOUCHER_UNKNOWN · VOUCHER_TAXED · VOUCHER_SPENT · CASH_NOT_ROUND
 */
export function payVoucherBack(
  ctx: WriteCtx,
  input: Pick<UseInput, 'number' | 'amountMinor'> & Pick<SellInput, 'way' | 'note'>,
): { readonly receipt: number } {
  const voucher = voucherNumbered(ctx.db, input.number);
  const { number, leftMinor, customerId, paymentId } = voucher;
  const { amountMinor, way, note } = input;
  if (paymentId === null) return refuse('VOUCHER_TAXED', { number });
  if (amountMinor > leftMinor) refuse('VOUCHER_SPENT', { number, leftMinor, askedMinor: amountMinor });
  const receipt = nextNumber(ctx.db, 'receipt');
  const held = [{ id: paymentId, customerId, leftMinor }];
  ctx.changed(voucher.id, 'paidBack');
  giveBack(ctx, held, amountMinor, { way, receipt, jobId: null, note });
  const entry = { voucherId: voucher.id, kind: 'paidBack', invoiceId: null } as const;
  bookEntry(ctx, { ...entry, amountMinor: -amountMinor, netMinor: 0 });
  return { receipt };
}

/** Takes the names of those they were for off the vouchers of somebody whose details are removed. */
export function eraseVouchers(ctx: WriteCtx, customerId: CustomerId): void {
  eraseVoucherNames(ctx.db, customerId);
}
