import type { WriteCtx } from '../../context.ts';
import { nextNumber } from '../../db/sequence.ts';
import { refuse } from '../../shared/errors.ts';
import { type CustomerId, type InvoiceId, idChance, type VoucherId } from '../../shared/ids.ts';
import { paperLocale } from '../../shared/text/papers.ts';
import { say } from '../../shared/text/say.ts';
import type { Minor } from '../../shared/units.ts';
import type { PaymentWay } from '../../shared/views/billing.ts';
import { drawCode } from '../../shared/voucherCode.ts';
import { paperTagOf, partyOf } from '../../views/billingParty.ts';
import { shopOf } from '../../views/shop.ts';
import { checkCoins } from '../rules/cash.ts';
import { type DateChoice, issueDay } from '../rules/numbers.ts';
import { agreedLine } from '../rules/quoteLines.ts';
import { totalsOf } from '../rules/totals.ts';
import { lastDayOf } from '../rules/vouchers.ts';
import { seriesEnd } from '../store/invoices.ts';
import { addVoucher, type VoucherRecord, voucherCoded } from '../store/vouchers.ts';
import { newInvoice } from './invoices.ts';
import { issueRow } from './issue.ts';
import { lineTaxOn } from './lines.ts';
import { bookMoney, cashStepOf, settleWith, todayOf } from './payments.ts';
import { bookEntry } from './vouchers.ts';

export type SellInput = {
  /** Null = whoever buys is not named. */
  readonly customerId: CustomerId | null;
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
  readonly code: string;
  readonly receipt: number;
  readonly invoiceId: InvoiceId | null;
};

/**
 * Sells a voucher for money, as the shop's are: multi-purpose, its money is held and not taxed yet; single-purpose, its
 * sale is taxed by an invoice that is paid at once.
 * @throws VOUCHER_NEEDS_BUYER for a single-purpose one to nobody named · CASH_NOT_ROUND · NO_TAX · NOT_FOUND · ISSUE_DATE_BEHIND · ISSUE_DATE_AHEAD · NUMBER_TO_CONFIRM
 * @source Directive (EU) 2016/1065: articles 30a, 30b, 73a of Directive 2006/112/EC
 */
export function sellVoucher(ctx: WriteCtx, input: SellInput): SoldVoucher {
  const customerId = input.customerId && partyOf(ctx.db, input.customerId).id;
  checkCoins(input.way, input.amountMinor, cashStepOf(ctx));
  const { voucherPurpose: purpose, voucherDays } = shopOf(ctx.db).settings.billing;
  const voucherId = ctx.newId<VoucherId>();
  ctx.changed(voucherId, 'number');
  const number = nextNumber(ctx.db, 'voucher');
  const receipt = nextNumber(ctx.db, 'receipt');
  const { amountMinor, way, note } = input;
  const money = { amountMinor, way, note, customerId, receipt };
  const sale = purpose === 'single' ? taxedSale(ctx, named(money), number, input.date) : null;
  const paymentId = sale ? null : bookMoney(ctx, { ...money, kind: 'voucher' });
  const invoiceId = sale?.invoiceId ?? null;
  const soldDay = sale?.issuedDay ?? todayOf(ctx);
  const code = freshCode(ctx);
  addVoucher(ctx.db, {
    ...{ id: voucherId, number, code, purpose, customerId, paymentId, soldDay },
    valueMinor: amountMinor,
    forName: input.forName,
    invoiceId,
    expiresDay: lastDayOf(soldDay, voucherDays),
    soldMs: ctx.now,
    soldBy: ctx.actor?.personId ?? null,
  });
  const netMinor = sale?.netMinor ?? (0 as Minor);
  bookEntry(ctx, { voucherId, kind: 'sold', amountMinor, netMinor, invoiceId, localDay: soldDay });
  return { voucherId, number, code, receipt, invoiceId };
}

/** A code that no voucher has. It comes from the chance in ids that name nothing, so no number or date tells it. */
function freshCode(ctx: WriteCtx): string {
  let chance: readonly number[] = [];
  const random = (): number => {
    if (chance.length === 0) chance = idChance(ctx.newId());
    const [next = 0, ...rest] = chance;
    chance = rest;
    return next;
  };
  for (;;) {
    const code = drawCode(random);
    if (!voucherCoded(ctx.db, code)) return code;
  }
}

type Sale = Pick<SellInput, 'amountMinor' | 'way' | 'note'> & {
  readonly customerId: CustomerId;
  readonly receipt: number;
};

/** @throws VOUCHER_NEEDS_BUYER */
function named<T extends { readonly customerId: CustomerId | null }>(
  money: T,
): T & { readonly customerId: CustomerId } {
  const { customerId } = money;
  return { ...money, customerId: customerId ?? refuse('VOUCHER_NEEDS_BUYER', {}) };
}

function taxedSale(
  ctx: WriteCtx,
  money: Sale,
  number: number,
  date: DateChoice,
): { readonly invoiceId: InvoiceId; readonly netMinor: Minor; readonly issuedDay: VoucherRecord['soldDay'] } {
  const said = paperLocale(paperTagOf(ctx.db, money.customerId));
  const text = say(said, 'billing.voucherLine', { number });
  const tax = lineTaxOn(ctx, 'standard', issueDay(todayOf(ctx), seriesEnd(ctx.db).lastDay, date));
  const bill = {
    lines: [agreedLine('voucher', text, 0, money.amountMinor, tax)],
    extras: [],
    taxIncluded: true,
  };
  const totals = totalsOf(bill);
  const { customerId } = money;
  const made = newInvoice(ctx, { kind: 'invoice', jobId: null, customerId, bill, totals });
  const { issuedDay } = issueRow(ctx, made, date);
  // Sold and paid at once: one day in every list, which is not today's where the clock was behind.
  const paymentId = bookMoney(ctx, { ...money, kind: 'payment', localDay: issuedDay });
  settleWith(ctx, paymentId, made.id, money.amountMinor, issuedDay);
  return { invoiceId: made.id, netMinor: totals.netMinor, issuedDay };
}
