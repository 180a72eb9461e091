import type { WriteCtx } from '../../context.ts';
import { nextNumber } from '../../db/sequence.ts';
import { refuse } from '../../shared/errors.ts';
import type { CustomerId, InvoiceId, VoucherId } from '../../shared/ids.ts';
import type { LocalDay, Minor } from '../../shared/units.ts';
import type { PaymentWay } from '../../shared/views/billing.ts';
import type { VoucherEntryKind, VoucherOff } from '../../shared/views/vouchers.ts';
import { printedCode, readCode } from '../../shared/voucherCode.ts';
import { roundedOff } from '../rules/cash.ts';
import { checkRefund, layMoney } from '../rules/owed.ts';
import { checkSpend } from '../rules/vouchers.ts';
import { type InvoiceRecord, invoiceOf, saveInvoice } from '../store/invoices.ts';
import {
  addVoucherEntry,
  eraseVoucherNames,
  usesOn,
  type VoucherRecord,
  voucherCoded,
  voucherNumbered,
} from '../store/vouchers.ts';
import { finalFigures } from './issue.ts';
import { cashStepOf, giveBack, owedNow, settleWith, todayOf } from './payments.ts';
import { checkVouchers } from './vouchersOff.ts';

/** Keeps what became of a voucher. */
export function bookEntry(
  ctx: WriteCtx,
  entry: {
    readonly voucherId: VoucherId;
    readonly kind: VoucherEntryKind;
    readonly amountMinor: number;
    readonly netMinor: number;
    readonly invoiceId: InvoiceId | null;
    /** Left out: today. */
    readonly localDay?: LocalDay;
  },
): void {
  const { amountMinor, netMinor, localDay = todayOf(ctx), ...rest } = entry;
  const byId = ctx.actor?.personId ?? null;
  const sums = { amountMinor: amountMinor as Minor, netMinor: netMinor as Minor };
  addVoucherEntry(ctx.db, { ...rest, ...sums, atMs: ctx.now, localDay, byId });
  ctx.changed(entry.voucherId, entry.kind);
}

export type UseInput = {
  /** As it was typed. */
  readonly code: string;
  readonly invoiceId: InvoiceId;
  readonly amountMinor: Minor;
};
/** Of a voucher that the desk has before it: by its number. */
export type BackInput = Omit<UseInput, 'code'> & { readonly number: number };

/**
 * Uses a voucher on a document. A multi-purpose one pays an issued invoice. A single-purpose one was taxed when it was
 * sold, so it comes off a draft, at its own rate, when that is issued.
 * @throws VOUCHER_CODE_LENGTH · VOUCHER_CODE_SIGN · VOUCHER_CODE_TYPO · VOUCHER_CODE_UNKNOWN · VOUCHER_EXPIRED · VOUCHER_SPENT · VOUCHER_ON_DRAFT · INVOICE_NOT_ISSUED · MONEY_ABOVE_OWED ·
 * VOUCHER_OTHER_TAX where the draft asks for less at its kind of tax
 */
export function useVoucher(ctx: WriteCtx, input: UseInput): { readonly leftMinor: Minor } {
  const code = readCode(input.code);
  const voucher = voucherCoded(ctx.db, code) ?? refuse('VOUCHER_CODE_UNKNOWN', { code: printedCode(code) });
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
  const vouchers = [...others, { voucherId: voucher.id, amountMinor }];
  checkVouchers(finalFigures(ctx, { ...row, vouchers }));
  saveInvoice(ctx.db, row.id, { vouchers });
  ctx.changed(row.id, 'vouchers');
}

/** Takes a voucher off a draft again. @throws INVOICE_ISSUED */
export function leaveVoucher(
  ctx: WriteCtx,
  input: Pick<BackInput, 'number' | 'invoiceId'>,
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
export function returnToVoucher(ctx: WriteCtx, input: BackInput): { readonly leftMinor: Minor } {
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
 * a credit note of that takes it back. Cash that comes to all that is left, as coins make it, takes all of it.
 * @throws VOUCHER_UNKNOWN · VOUCHER_TAXED · VOUCHER_SPENT · CASH_NOT_ROUND
 */
export function payVoucherBack(
  ctx: WriteCtx,
  input: Pick<BackInput, 'number' | 'amountMinor'> & {
    readonly way: Exclude<PaymentWay, 'account'>;
    readonly note: string;
  },
): { readonly receipt: number } {
  const voucher = voucherNumbered(ctx.db, input.number);
  const { number, leftMinor, customerId, paymentId } = voucher;
  const { amountMinor, way, note } = input;
  if (paymentId === null) return refuse('VOUCHER_TAXED', { number });
  const rounding = roundedOff(way, leftMinor, amountMinor, cashStepOf(ctx));
  const offMinor = amountMinor + rounding;
  if (offMinor > leftMinor) refuse('VOUCHER_SPENT', { number, leftMinor, askedMinor: amountMinor });
  const receipt = nextNumber(ctx.db, 'receipt');
  const held = [{ id: paymentId, customerId, leftMinor }];
  ctx.changed(voucher.id, 'paidBack');
  giveBack(ctx, held, amountMinor, { way, receipt, jobId: null, note });
  const entry = { voucherId: voucher.id, kind: 'paidBack', invoiceId: null } as const;
  bookEntry(ctx, { ...entry, amountMinor: -offMinor, netMinor: 0 });
  return { receipt };
}

/** Takes the names of those they were for off the vouchers of somebody whose details are removed. */
export function eraseVouchers(ctx: WriteCtx, customerId: CustomerId): void {
  eraseVoucherNames(ctx.db, customerId);
}
