import { sellVoucher } from '../billing/commands/sellVoucher.ts';
import { payTips } from '../billing/commands/tips.ts';
import { leaveVoucher, payVoucherBack, returnToVoucher, useVoucher } from '../billing/commands/vouchers.ts';
import { letVouchersGo, restoreVoucher, takeVoucherLate } from '../billing/commands/vouchersOver.ts';
import { listVouchers, readVoucher, voucherFile } from '../billing/read/vouchers.ts';
import type { HandlersFor } from '../handler.ts';
import type { voucherEntries } from '../shared/catalogue/vouchers.ts';

export const voucherHandlers: HandlersFor<typeof voucherEntries> = {
  'billing.listVouchers': listVouchers,
  'billing.readVoucher': (ctx, input) => readVoucher(ctx, input.voucherId),
  'billing.voucherFile': { make: voucherFile },
  'billing.sellVoucher': sellVoucher,
  'billing.useVoucher': useVoucher,
  'billing.leaveVoucher': leaveVoucher,
  'billing.returnToVoucher': returnToVoucher,
  'billing.payVoucherBack': payVoucherBack,
  'billing.letVouchersGo': letVouchersGo,
  'billing.restoreVoucher': restoreVoucher,
  'billing.takeVoucherLate': takeVoucherLate,
  'billing.payTips': payTips,
};
