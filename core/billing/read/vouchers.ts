import type { ReadCtx } from '../../context.ts';
import { voucherPdf } from '../../documents/voucherPdf.ts';
import type { VoucherId } from '../../shared/ids.ts';
import type { DocumentFile } from '../../shared/reply.ts';
import { localDayOf } from '../../shared/time.ts';
import type { VouchersPage, VoucherView } from '../../shared/views/vouchers.ts';
import { sellerOf } from '../../views/billingParty.ts';
import { withLogo } from '../../views/logo.ts';
import { shopOf } from '../../views/shop.ts';
import {
  foundVouchers,
  type VoucherSearch,
  voucherEntriesOf,
  voucherRow,
  vouchersCount,
  vouchersHeld,
  voucherTag,
} from '../../views/vouchers.ts';
import { inCash } from '../rules/cash.ts';

export function listVouchers(
  ctx: ReadCtx,
  { limit, ...asked }: Pick<VoucherSearch, 'search' | 'list'> & { readonly limit: number },
): VouchersPage {
  const { zone, settings } = shopOf(ctx.db);
  const today = localDayOf(ctx.now, zone);
  const search = { ...asked, today };
  return {
    rows: foundVouchers(ctx.db, { ...search, limit, holdDays: settings.billing.voucherHoldDays }),
    total: vouchersCount(ctx.db, search),
    ...vouchersHeld(ctx.db, today),
    purpose: settings.billing.voucherPurpose,
    days: settings.billing.voucherDays,
  };
}

/** @throws NOT_FOUND */
export function readVoucher(ctx: ReadCtx, id: VoucherId): VoucherView {
  const seller = sellerOf(ctx.db, voucherTag(ctx.db, id));
  const { voucherHoldDays: holdDays, cashStepMinor } = shopOf(ctx.db).settings.billing;
  const row = voucherRow(ctx.db, id, { today: localDayOf(ctx.now, seller.zone), holdDays });
  const leftCashMinor = inCash(row.leftMinor, cashStepMinor);
  return { ...row, leftCashMinor, entries: voucherEntriesOf(ctx.db, id), seller };
}

/** The sheet that is given away; of one used in part it says what is left. @throws NOT_FOUND */
export function voucherFile(
  ctx: ReadCtx,
  input: { readonly voucherId: VoucherId },
): () => Promise<DocumentFile> {
  const read = readVoucher(ctx, input.voucherId);
  const voucher = { ...read, seller: withLogo(ctx.db, read.seller) };
  const today = localDayOf(ctx.now, voucher.seller.zone);
  return async () => ({
    fileName: `voucher-${voucher.number}.pdf`,
    mime: 'application/pdf',
    bytes: await voucherPdf(voucher, today, ctx.now),
  });
}
