import type { CustomerId, InvoiceId, JobId, PersonId, QuoteId } from '../ids.ts';
import type { LocalDay, Minor } from '../units.ts';
import type { JobState } from '../vocabulary.ts';
import type { InvoiceRow, PaymentRow, PaymentWay, QuoteState } from './billing.ts';

/** Money owed by age in whole days after the due day. The parts sum to `owedMinor`. */
export type AgeingView = {
  readonly notDueMinor: Minor;
  readonly upTo30Minor: Minor;
  readonly upTo60Minor: Minor;
  readonly upTo90Minor: Minor;
  readonly olderMinor: Minor;
  readonly owedMinor: Minor;
};

export type HeldDeposit = {
  readonly jobId: JobId;
  readonly jobNumber: number;
  readonly customer: string;
  readonly heldMinor: Minor;
  /** The job will not be done or its bill is issued: somebody has to say what becomes of what is held. */
  readonly over: boolean;
};

export type HeldCredit = {
  readonly customerId: CustomerId;
  readonly customer: string;
  readonly heldMinor: Minor;
  /** The same as coins make it. */
  readonly cashMinor: Minor;
};

/** Tips of a person that wait to be paid out; `name` is '' for those that everybody shares. */
export type HeldTip = {
  readonly personId: PersonId | null;
  readonly name: string;
  readonly heldMinor: Minor;
  /** The same as coins make it. */
  readonly cashMinor: Minor;
};

export type WaitingQuote = {
  readonly quoteId: QuoteId;
  readonly number: number;
  readonly version: number;
  readonly state: QuoteState;
  readonly jobId: JobId;
  readonly jobNumber: number;
  readonly customer: string;
  readonly makeModel: string;
  readonly lowMinor: Minor;
  readonly highMinor: Minor;
  readonly validUntilDay: LocalDay;
  readonly lapsed: boolean;
};

export type ToBill = {
  readonly jobId: JobId;
  readonly jobNumber: number;
  readonly customer: string;
  readonly makeModel: string;
  readonly state: JobState;
  /** Who pays: the customer, or somebody else for them. */
  readonly payerId: CustomerId;
  readonly payer: string;
  readonly agreedMinor: Minor | null;
  /** Billed of it on partial invoices, with tax; null without any. */
  readonly partlyMinor: Minor | null;
};

export type ReminderDue = {
  readonly invoiceId: InvoiceId;
  readonly number: number;
  readonly customer: string;
  readonly owedMinor: Minor;
  readonly overdueDays: number;
  readonly level: number;
};

/** The Money place in one snapshot. */
export type MoneyDesk = {
  readonly today: LocalDay;
  readonly currency: string;
  readonly ageing: AgeingView;
  readonly open: readonly InvoiceRow[];
  /** Documents on which the shop owes: after a credit note for what was paid. */
  readonly payBack: readonly InvoiceRow[];
  readonly drafts: readonly InvoiceRow[];
  readonly toBill: readonly ToBill[];
  readonly deposits: readonly HeldDeposit[];
  readonly depositsMinor: Minor;
  /** Credits on account, by customer. */
  readonly credits: readonly HeldCredit[];
  readonly creditsMinor: Minor;
  /** Left on gift vouchers, with tax, whether they are still taken or past their day. */
  readonly vouchersMinor: Minor;
  /** The part of it that is past its day. */
  readonly vouchersOverMinor: Minor;
  readonly tips: readonly HeldTip[];
  readonly tipsMinor: Minor;
  readonly quotes: readonly WaitingQuote[];
  readonly reminders: readonly ReminderDue[];
  /** Money in less money paid back today, by way. */
  readonly takings: readonly { readonly way: PaymentWay; readonly amountMinor: Minor }[];
  readonly takingsMinor: Minor;
  readonly paymentsToday: readonly PaymentRow[];
};
