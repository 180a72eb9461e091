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
  voucherEntriesOf,
  voucherRow,
  vouchersCount,
  vouchersHeld,
  voucherTag,
} from '../../views/vouchers.ts';

export function listVouchers(
  ctx: ReadCtx,
  { search, limit }: { readonly search: string; readonly limit: number },
): VouchersPage {
  const { zone, settings } = shopOf(ctx.db);
  const today = localDayOf(ctx.now, zone);
  return {
    rows: foundVouchers(ctx.db, { search, limit, today }),
    total: vouchersCount(ctx.db, search),
    heldMinor: vouchersHeld(ctx.db, today),
    purpose: settings.billing.voucherPurpose,
    days: settings.billing.voucherDays,
  };
}

/** @throws NOT_FOUND */
export function readVoucher(ctx: ReadCtx, id: VoucherId): VoucherView {
  const seller = sellerOf(ctx.db, voucherTag(ctx.db, id));
  const row = voucherRow(ctx.db, id, localDayOf(ctx.now, seller.zone));
  return { ...row, entries: voucherEntriesOf(ctx.db, id), seller };
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
