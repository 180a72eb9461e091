import type { WriteCtx } from '../../context.ts';
import { refuse } from '../../shared/errors.ts';
import type { VoucherId } from '../../shared/ids.ts';
import type { LocalDay, Minor } from '../../shared/units.ts';
import { shopOf } from '../../views/shop.ts';
import { sum } from '../rules/totals.ts';
import { checkLateDay, checkLetGo } from '../rules/vouchers.ts';
import { addVoucherEntry, letGoOf, saveLateDay, type VoucherRecord, voucherOf } from '../store/vouchers.ts';
import { todayOf } from './payments.ts';

/**
 * Lets what is left of expired vouchers go as income of the shop, all of them or none. Each can be held again.
 * @throws NOT_FOUND · VOUCHER_NO_LAST_DAY · VOUCHER_STILL_HELD · VOUCHER_EMPTY
 */
export function letVouchersGo(
  ctx: WriteCtx,
  input: { readonly voucherIds: readonly VoucherId[] },
): { readonly letGoMinor: Minor } {
  const { voucherHoldDays } = shopOf(ctx.db).settings.billing;
  const vouchers = [...new Set(input.voucherIds)].map((id) => voucherOf(ctx.db, id));
  for (const voucher of vouchers) {
    checkLetGo(voucher, voucherHoldDays, todayOf(ctx));
    book(ctx, voucher, 'letGo', -voucher.leftMinor, -voucher.netMinor);
  }
  return { letGoMinor: sum(vouchers.map((v) => v.leftMinor)) as Minor };
}

/** Holds again what was let go of a voucher. @throws NOT_FOUND · VOUCHER_NOT_LET_GO */
export function restoreVoucher(
  ctx: WriteCtx,
  input: { readonly voucherId: VoucherId },
): { readonly leftMinor: Minor } {
  const voucher = voucherOf(ctx.db, input.voucherId);
  const backMinor = holdAgain(ctx, voucher);
  if (backMinor === 0) refuse('VOUCHER_NOT_LET_GO', { number: voucher.number });
  return { leftMinor: (voucher.leftMinor + backMinor) as Minor };
}

/**
 * Takes a voucher until a later day than it says, as the owner decides; what was let go of it is held again.
 * @throws NOT_FOUND · VOUCHER_NO_LAST_DAY · VOUCHER_LATE_DAY
 */
export function takeVoucherLate(
  ctx: WriteCtx,
  input: { readonly voucherId: VoucherId; readonly untilDay: LocalDay },
): { readonly leftMinor: Minor } {
  const voucher = voucherOf(ctx.db, input.voucherId);
  checkLateDay(voucher, input.untilDay, todayOf(ctx));
  saveLateDay(ctx.db, voucher.id, input.untilDay);
  ctx.changed(voucher.id, 'untilDay');
  return { leftMinor: (voucher.leftMinor + holdAgain(ctx, voucher)) as Minor };
}

/** The opposite of what was let go; 0 when nothing was. */
function holdAgain(ctx: WriteCtx, voucher: VoucherRecord): number {
  const { amountMinor, netMinor } = letGoOf(ctx.db, voucher.id);
  if (amountMinor !== 0) book(ctx, voucher, 'restored', -amountMinor, -netMinor || 0);
  return -amountMinor || 0;
}

function book(
  ctx: WriteCtx,
  { id }: VoucherRecord,
  kind: 'letGo' | 'restored',
  amountMinor: number,
  netMinor: number,
): void {
  addVoucherEntry(ctx.db, {
    ...{ voucherId: id, kind, invoiceId: null, atMs: ctx.now, localDay: todayOf(ctx) },
    amountMinor: amountMinor as Minor,
    netMinor: (netMinor || 0) as Minor,
    byId: ctx.actor?.personId ?? null,
  });
  ctx.changed(id, kind);
}
