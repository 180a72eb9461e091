import type { ReadCtx, WriteCtx } from '../../context.ts';
import type { Bill, BillTotals } from '../../shared/bill.ts';
import { refuse } from '../../shared/errors.ts';
import type { VoucherId } from '../../shared/ids.ts';
import { paperLocale } from '../../shared/text/papers.ts';
import { say } from '../../shared/text/say.ts';
import type { LocalDay, Minor } from '../../shared/units.ts';
import type { VoucherEntryKind, VoucherOff } from '../../shared/views/vouchers.ts';
import type { Prepaid } from '../rules/deposit.ts';
import { netOfShare } from '../rules/taxShares.ts';
import { sum } from '../rules/totals.ts';
import { checkSpend, netOff } from '../rules/vouchers.ts';
import { type InvoiceRecord, invoiceOf } from '../store/invoices.ts';
import { addVoucherEntry, usesOn, voucherOf, voucherSoldOn } from '../store/vouchers.ts';

/** A single-purpose voucher on a draft, and what it takes off: taxed when it was sold, so with its own tax. */
export type TakenVoucher = VoucherOff & {
  readonly number: number;
  readonly code: string;
  readonly prepaid: Prepaid;
};

/** What vouchers take off a document, in the words of its tag. */
export function takenVouchers(
  ctx: Pick<ReadCtx, 'db'>,
  off: readonly VoucherOff[],
  tag: string,
): TakenVoucher[] {
  return off.flatMap(({ voucherId, amountMinor }): TakenVoucher[] => {
    const voucher = voucherOf(ctx.db, voucherId);
    const tax = voucher.invoiceId && invoiceOf(ctx.db, voucher.invoiceId).bill.lines[0]?.tax;
    if (!tax) return [];
    const { number, code } = voucher;
    const text = say(paperLocale(tag), 'billing.voucherOffLine', { number });
    const totals = { toPayMinor: amountMinor, netMinor: netOff(voucher, amountMinor) };
    return [{ voucherId, amountMinor, number, code, prepaid: { what: 'voucher', text, tax, totals } }];
  });
}

type Figures = {
  readonly bill: Bill;
  readonly totals: BillTotals;
  readonly vouchers: readonly TakenVoucher[];
};

/**
 * What vouchers may take off: not more than the document asks for, nor than it has of their kind of tax.
 * @throws BILL_BELOW_ZERO · VOUCHER_OTHER_TAX
 */
export function checkVouchers({ totals, vouchers }: Figures): void {
  if (vouchers.length === 0) return;
  if (totals.toPayMinor < 0) refuse('BILL_BELOW_ZERO', { belowMinor: -totals.toPayMinor });
  for (const { number, prepaid } of vouchers) {
    const same = totals.taxes.filter((t) => t.category === prepaid.tax.category);
    // With tax: where the rate went up since its sale, the voucher has more before tax than the same work now.
    const asked = sum(same.map((t) => netOfShare(t) + t.taxMinor)) + Math.max(0, totals.roundingMinor);
    if (asked < 0) refuse('VOUCHER_OTHER_TAX', { number });
  }
}

type Noted = Pick<InvoiceRecord, 'id' | 'bill' | 'toPayMinor' | 'ofInvoiceId'> & {
  readonly issuedDay: LocalDay;
};

/**
 * Keeps on the vouchers what an issued document took off them, gave back to them, or took back of their sale: under the
 * document's day, which is not today's where the clock was behind.
 */
export function bookVouchers(ctx: WriteCtx, row: Noted, vouchers: readonly TakenVoucher[]): void {
  for (const { voucherId, amountMinor } of vouchers) {
    const voucher = voucherOf(ctx.db, voucherId);
    checkSpend(voucher, amountMinor, row.issuedDay);
    book(ctx, row, voucherId, 'used', { amountMinor: -amountMinor, netMinor: -netOff(voucher, amountMinor) });
  }
  if (row.ofInvoiceId === null) return;
  takeBackSale(ctx, row);
  if (!row.bill.lines.some((line) => line.what === 'voucher')) return;
  for (const { voucherId, amountMinor, netMinor } of usesOn(ctx.db, row.ofInvoiceId))
    if (voucherOf(ctx.db, voucherId).purpose === 'single')
      book(ctx, row, voucherId, 'returned', { amountMinor: -amountMinor, netMinor: -netMinor });
}

/** A credit note of the sale takes back no more than the voucher still has. @throws VOUCHER_SPENT */
function takeBackSale(ctx: WriteCtx, note: Noted): void {
  const voucher = note.ofInvoiceId && voucherSoldOn(ctx.db, note.ofInvoiceId);
  if (!voucher) return;
  const { number, leftMinor } = voucher;
  const askedMinor = -note.toPayMinor;
  if (askedMinor > leftMinor) refuse('VOUCHER_SPENT', { number, leftMinor, askedMinor });
  const off = { amountMinor: note.toPayMinor, netMinor: -netOff(voucher, askedMinor) };
  book(ctx, note, voucher.id, 'paidBack', off);
}

function book(
  ctx: WriteCtx,
  row: Noted,
  voucherId: VoucherId,
  kind: VoucherEntryKind,
  sums: { readonly amountMinor: number; readonly netMinor: number },
): void {
  addVoucherEntry(ctx.db, {
    voucherId,
    kind,
    amountMinor: sums.amountMinor as Minor,
    netMinor: sums.netMinor as Minor,
    invoiceId: row.id,
    atMs: ctx.now,
    localDay: row.issuedDay,
    byId: ctx.actor?.personId ?? null,
  });
  ctx.changed(voucherId, kind);
}
