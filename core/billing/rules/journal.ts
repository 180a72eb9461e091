import type { Account } from '#core/shared/settings/accounts.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { PaymentWay } from '#core/shared/views/billing.ts';

/** One side of a booking; exactly one of debit and credit is above zero. */
export type Posting = {
  readonly day: LocalDay;
  readonly document: string;
  readonly text: string;
  readonly account: Account;
  /** Rate of the revenue or tax in ppm, null elsewhere. */
  readonly ratePpm: number | null;
  readonly debitMinor: number;
  readonly creditMinor: number;
};
type Head = Pick<Posting, 'day' | 'document' | 'text'>;

function post(head: Head, account: Account, debit: number, ratePpm: number | null = null): Posting[] {
  if (debit === 0) return [];
  const { day, document, text } = head;
  return [
    {
      day,
      document,
      text,
      account,
      ratePpm,
      debitMinor: Math.max(0, debit),
      creditMinor: Math.max(0, -debit),
    },
  ];
}

export type JournalInvoice = {
  readonly day: LocalDay;
  readonly document: string;
  readonly text: string;
  readonly toPayMinor: number;
  readonly shares: readonly {
    readonly ratePpm: number;
    /** What it adds to the document's net: nothing where it is a further tax on the same sale. */
    readonly netMinor: number;
    readonly taxMinor: number;
  }[];
  /** Taxed vouchers, before tax and by rate: above zero what was sold, below it what was used. It is held, not earned. */
  readonly vouchers?: readonly { readonly ratePpm: number; readonly netMinor: number }[];
};

/** An issued document: what is owed against revenue, tax and the rounding amount. Credit notes turn the sides. */
export function invoicePostings(invoice: JournalInvoice): Posting[] {
  const whole = invoice.shares.reduce((t, s) => t + s.netMinor + s.taxMinor, 0);
  const { vouchers = [] } = invoice;
  return [
    ...post(invoice, 'receivables', invoice.toPayMinor),
    ...invoice.shares.flatMap((s) => post(invoice, 'revenue', -s.netMinor, s.ratePpm)),
    ...vouchers.flatMap((v) => post(invoice, 'revenue', v.netMinor, v.ratePpm)),
    ...vouchers.flatMap((v) => post(invoice, 'vouchersHeld', -v.netMinor)),
    ...invoice.shares.flatMap((s) => post(invoice, 'taxOwed', -s.taxMinor, s.ratePpm)),
    ...post(invoice, 'rounding', whole - invoice.toPayMinor),
  ];
}

/** Where money came from or what it is held as: the account against cash, card or bank. */
export type Against = 'receivables' | 'depositsHeld' | 'creditsHeld' | 'vouchersHeld' | 'tipsHeld';

/** Money taken (positive) or paid back (negative). Money of the way `account` moves between held accounts only. */
export function moneyPostings(head: Head, way: PaymentWay, against: Against, amountMinor: number): Posting[] {
  const place: Account = way === 'transfer' ? 'bank' : way === 'account' ? 'depositsHeld' : way;
  if (place === against) return [];
  return [...post(head, place, amountMinor), ...post(head, against, -amountMinor)];
}

/** What coins could not make of a document, or of held money that went back: let go (positive) or taken above it. */
export function roundingPostings(head: Head, against: Against, amountMinor: number): Posting[] {
  return [...post(head, 'rounding', amountMinor), ...post(head, against, -amountMinor)];
}

/** What was let go of a voucher after its last day (positive), or held again: it is no supply, so no tax. */
export function letGoPostings(head: Head, amountMinor: number): Posting[] {
  return [...post(head, 'vouchersHeld', amountMinor), ...post(head, 'vouchersLetGo', -amountMinor)];
}

type CountPart = 'floatMinor' | 'differenceMinor' | 'bankedMinor';

/** A count of the till: its opening float, the difference to what was expected, and what was taken to the bank. */
export function countPostings(
  head: Head,
  { floatMinor, differenceMinor, bankedMinor }: Readonly<Record<CountPart, number>>,
): Posting[] {
  return [
    ...post(head, 'cash', floatMinor),
    ...post(head, 'openingFloat', -floatMinor),
    ...post(head, 'cash', differenceMinor),
    ...post(head, 'cashDifference', -differenceMinor),
    ...post(head, 'bank', bankedMinor),
    ...post(head, 'cash', -bankedMinor),
  ];
}

/** Held money: of a customer, of the bearer of a voucher, of a person of the shop. */
export type HeldKind = 'deposit' | 'credit' | 'voucher' | 'tip';
export const HELD_ACCOUNT = {
  deposit: 'depositsHeld',
  credit: 'creditsHeld',
  voucher: 'vouchersHeld',
  tip: 'tipsHeld',
} as const satisfies Readonly<Record<HeldKind, Account>>;

/** A held deposit, credit or untaxed voucher that settles a document. */
export function usePostings(head: Head, kind: HeldKind, amountMinor: number): Posting[] {
  return [...post(head, HELD_ACCOUNT[kind], amountMinor), ...post(head, 'receivables', -amountMinor)];
}
