import type { ReadCtx } from '../../context.ts';
import { refuse } from '../../shared/errors.ts';
import { type Locale, localeFor, say } from '../../shared/text/say.ts';
import type { LocalDay } from '../../shared/units.ts';
import type { InvoiceKind, PaymentKind } from '../../shared/views/billing.ts';
import {
  type BookedPayment,
  bookedInvoices,
  bookedPayments,
  bookedUses,
  taxesIssued,
} from '../../views/billingReports.ts';
import { shopOf } from '../../views/shop.ts';
import { cashCountsIn } from '../../views/till.ts';
import { bookedLetGo, voucherNetsIssued } from '../../views/voucherReports.ts';
import {
  type Against,
  countPostings,
  HELD_ACCOUNT,
  invoicePostings,
  letGoPostings,
  moneyPostings,
  type Posting,
  roundingPostings,
  usePostings,
} from '../rules/journal.ts';

/** @throws PERIOD_REVERSED */
export function checkPeriod(fromDay: LocalDay, toDay: LocalDay): void {
  if (toDay < fromDay) refuse('PERIOD_REVERSED', { fromDay, toDay });
}

type Period = { readonly fromDay: LocalDay; readonly toDay: LocalDay };

/** Every booking of a period, both sides, in the order of days. @throws PERIOD_REVERSED */
export function readJournal(ctx: ReadCtx, { fromDay, toDay }: Period): Posting[] {
  checkPeriod(fromDay, toDay);
  const locale = localeFor(shopOf(ctx.db).locale);
  const taxes = taxesIssued(ctx.db, fromDay, toDay);
  const vouchers = voucherNetsIssued(ctx.db, fromDay, toDay);
  const documents = bookedInvoices(ctx.db, fromDay, toDay).flatMap((i) =>
    invoicePostings({
      day: i.day,
      document: named(locale, i.kind, i.number),
      text: i.customer,
      toPayMinor: i.toPayMinor,
      shares: taxes.get(i.id) ?? [],
      vouchers: vouchers.get(i.id) ?? [],
    }),
  );
  const money = bookedPayments(ctx.db, fromDay, toDay).flatMap((p) => paymentPostings(locale, p));
  const uses = bookedUses(ctx.db, fromDay, toDay).flatMap((u) => {
    const head = { day: u.day, document: named(locale, 'invoice', u.number), text: u.customer };
    return usePostings(head, u.kind, u.amountMinor);
  });
  const counts = cashCountsIn(ctx.db, fromDay, toDay).flatMap((c) => {
    const head = { day: c.day, document: say(locale, 'doc.cashCount'), text: c.reason };
    return countPostings(head, { ...c, differenceMinor: c.countedMinor - c.expectedMinor });
  });
  const letGo = bookedLetGo(ctx.db, fromDay, toDay).flatMap((v) => {
    const document = say(locale, 'doc.journal.voucher', { number: v.number });
    return letGoPostings({ day: v.day, document, text: v.customer }, v.amountMinor);
  });
  return [...documents, ...money, ...uses, ...counts, ...letGo].sort((a, b) => a.day.localeCompare(b.day));
}

function named(locale: Locale, what: InvoiceKind | 'receipt', number: number): string {
  return say(locale, `doc.${what}`, { number });
}

const HELD_AS: Readonly<Partial<Record<PaymentKind, Against>>> = HELD_ACCOUNT;

function paymentPostings(locale: Locale, p: BookedPayment): Posting[] {
  const head = { day: p.day, document: named(locale, 'receipt', p.receipt), text: p.customer };
  const kind = p.kind === 'refund' || p.kind === 'rounding' ? (p.ofKind ?? 'payment') : p.kind;
  const against = HELD_AS[kind] ?? 'receivables';
  if (p.kind === 'rounding') return roundingPostings(head, against, p.amountMinor);
  return moneyPostings(head, p.way, against, p.amountMinor);
}
