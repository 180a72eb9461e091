import type { Bill, BillTotals } from '../bill.ts';
import type { ConsentWay } from '../consent.ts';
import type { CustomerId, InvoiceId, JobId, QuoteId } from '../ids.ts';
import type { QuoteBasis } from '../settings/billing.ts';
import type { EpochMin, EpochMs, LocalDay, Minor, Ppm } from '../units.ts';
import type { BodyStyle, JobState } from '../vocabulary.ts';
import type { HoursView, LimitView, PanelPlanView } from './estimate.ts';
import type { BilledAboveView, BilledBefore, ProgressView } from './partial.ts';

export const QUOTE_STATES = ['draft', 'sent', 'accepted', 'replaced', 'declined'] as const;

export type QuoteState = (typeof QUOTE_STATES)[number];

export const OPTION_LETTERS = ['A', 'B', 'C'] as const;

export type OptionLetter = (typeof OPTION_LETTERS)[number];

/** `partial` bills what is done so far of a job; its `invoice` then bills the rest. */
export const INVOICE_KINDS = ['invoice', 'prepayment', 'partial', 'credit'] as const;

export type InvoiceKind = (typeof INVOICE_KINDS)[number];

export const PAYMENT_KINDS = [
  'payment',
  'deposit',
  'credit',
  'voucher',
  'tip',
  'refund',
  'rounding',
] as const;

export type PaymentKind = (typeof PAYMENT_KINDS)[number];

/** `account`: not money over the counter, but what the shop already held. */
export const PAYMENT_WAYS = ['cash', 'card', 'transfer', 'account'] as const;

export type PaymentWay = (typeof PAYMENT_WAYS)[number];

/** What money above the amount owed is. */
export const SURPLUS_KINDS = ['deposit', 'tip', 'credit'] as const;

export type SurplusKind = (typeof SURPLUS_KINDS)[number];

/** The other side of a document: who it is for. */
export type PartyView = {
  readonly id: CustomerId;
  readonly name: string;
  readonly address: string;
  readonly email: string;
  readonly phone: string;
  readonly country: string;
  readonly taxNumber: string;
};

/** The account that customers transfer to. */
export type BankView = { readonly holder: string; readonly iban: string; readonly bic: string };

/** The sign at the head of documents; its bytes only where one is being drawn. */
export type LogoView = {
  readonly hash: string;
  readonly mime: 'image/png' | 'image/jpeg';
  readonly widthPx: number;
  readonly heightPx: number;
  readonly bytes?: Uint8Array;
};

/** The shop as its documents name it. */
export type SellerView = {
  readonly name: string;
  readonly address: string;
  readonly phone: string;
  readonly email: string;
  readonly country: string;
  readonly taxNumber: string;
  readonly currency: string;
  readonly zone: string;
  readonly locale: string;
  readonly paper: 'A4' | 'Letter';
  readonly filmUnit: 'um' | 'mil';
  readonly volumeUnit: 'ml' | 'floz';
  readonly lengthUnit: 'm' | 'ft';
  /** Absent where the shop names none. */
  readonly bank?: BankView;
  /** Absent where it has none. */
  readonly logo?: LogoView;
};

export type BilledVehicle = {
  readonly body: BodyStyle;
  readonly makeModel: string;
  readonly colour: string;
  readonly year: number | null;
  readonly plate: string;
};

export type QuoteOptionView = {
  readonly letter: OptionLetter;
  /** The estimate that it was made from. */
  readonly estimateId: string;
  readonly title: string;
  readonly bill: Bill;
  readonly totals: BillTotals;
  readonly limits: readonly LimitView[];
  readonly panels: readonly PanelPlanView[];
  readonly hours: HoursView;
  /** Minutes the price rests on. */
  readonly chargedMin: number;
  /** Prices of an attended hour of its stages, each once, the lowest first. */
  readonly hourPricesMinor: readonly Minor[];
  readonly gainPpm: Ppm;
  readonly depositMinor: Minor;
  /** While it can be agreed to for a car that has its dates already. */
  readonly pickUp: PickUpWith | null;
};

/** What other hours do to the dates of a car: how sure the agreed pick-up is with them, and the first that is sure. */
export type PickUpWith = {
  /** Null where the places booked do not hold all the work: nothing can be said of dates then. */
  readonly agreedPpm: Ppm | null;
  /** Never before the agreed one; null = beyond all that is planned. */
  readonly pickUpMin: EpochMin | null;
  /** How sure that one is; null where there is none. */
  readonly surePpm: Ppm | null;
};

export type AcceptanceView = {
  readonly letter: OptionLetter;
  readonly name: string;
  readonly way: ConsentWay;
  readonly atMs: EpochMs;
};

/** A quote as the screen and the printed sheet show it. */
export type QuoteView = {
  readonly id: QuoteId;
  readonly number: number;
  readonly version: number;
  readonly state: QuoteState;
  readonly jobId: JobId;
  readonly jobNumber: number;
  readonly jobState: JobState;
  readonly basis: QuoteBasis;
  readonly madeMs: EpochMs;
  readonly madeDay: LocalDay;
  readonly validUntilDay: LocalDay;
  /** The day is past and nobody has answered. */
  readonly lapsed: boolean;
  readonly options: readonly QuoteOptionView[];
  readonly acceptance: AcceptanceView | null;
  /** Why there is this version: '' for the first. */
  readonly reason: string;
  readonly customer: PartyView;
  readonly payer: PartyView;
  readonly vehicle: BilledVehicle;
  readonly ceilingMinor: Minor | null;
  readonly dropOffMin: EpochMin | null;
  readonly pickUpMin: EpochMin | null;
  readonly promisePpm: Ppm | null;
  readonly depositHeldMinor: Minor;
  /** The job will not be done or its bill is issued: no deposit is taken any more, what is held goes somewhere. */
  readonly depositOver: boolean;
  readonly seller: SellerView;
  readonly versions: readonly {
    readonly id: QuoteId;
    readonly version: number;
    readonly state: QuoteState;
  }[];
  readonly revision: number;
};

export type PaymentRow = {
  readonly id: string;
  readonly receipt: number;
  readonly kind: PaymentKind;
  readonly way: PaymentWay;
  /** What moved; money paid back is negative. */
  readonly amountMinor: Minor;
  readonly atMs: EpochMs;
  readonly by: string;
  readonly note: string;
  readonly customer: string;
  readonly jobNumber: number | null;
};

export type InvoiceLinkView = {
  readonly id: InvoiceId;
  readonly number: number;
  readonly kind: InvoiceKind;
  readonly toPayMinor: Minor;
};

/** A print of an issued document. */
export type PrintView = { readonly atMs: EpochMs; readonly by: string };

/** The other of two invoices that one bill was split into. */
export type SplitView = {
  readonly id: InvoiceId;
  readonly number: number | null;
  readonly customer: string;
  readonly toPayMinor: Minor;
};

/** An invoice, prepayment or partial invoice, or credit note. `number` is null until it is issued. */
export type InvoiceView = {
  readonly id: InvoiceId;
  readonly kind: InvoiceKind;
  readonly number: number | null;
  readonly jobId: JobId | null;
  readonly jobNumber: number | null;
  readonly customer: PartyView;
  readonly vehicle: BilledVehicle | null;
  readonly seller: SellerView;
  /** False on a draft for work that no quote was agreed for: it is billed by the time it took. */
  readonly agreed: boolean;
  readonly bill: Bill;
  readonly totals: BillTotals;
  /** Deposits taken off as payments (BT-113). */
  readonly prepaidMinor: Minor;
  /** BT-115: asked for on paper, after what was paid before. */
  readonly dueMinor: Minor;
  /** Still to pay today: negative when the shop owes; on a credit note what the shop owes on the document it corrects. */
  readonly owedMinor: Minor;
  /** The same in coins, where the shop rounds cash. */
  readonly owedCashMinor: Minor;
  /** Credit on account that the payer has, whatever it came from. */
  readonly creditHeldMinor: Minor;
  readonly issuedMs: EpochMs | null;
  readonly issuedDay: LocalDay | null;
  readonly dueDay: LocalDay | null;
  readonly overdueDays: number;
  readonly suppliedDay: LocalDay | null;
  readonly note: string;
  readonly reason: string;
  readonly orderNumber: string;
  readonly of: InvoiceLinkView | null;
  /** Of a partial invoice those before it, of the one for the rest those it takes off; none of any other. */
  readonly before: readonly BilledBefore[];
  readonly progress: ProgressView | null;
  /**
   * On a draft for the rest: by how much the partial invoices are above all that is billed, and the credit notes that
   * would put that right; null where they are not.
   */
  readonly billedAbove: BilledAboveView | null;
  readonly credits: readonly InvoiceLinkView[];
  /** What may still be credited of each line, as the document shows it; below zero where a line takes something off. */
  readonly lineLeftMinor: readonly Minor[];
  readonly wholeCredited: boolean;
  readonly payments: readonly PaymentRow[];
  /** Of the same receipts, but not for this document: tips, deposits, credits. */
  readonly beside: readonly PaymentRow[];
  readonly reminders: readonly { readonly level: number; readonly atMs: EpochMs }[];
  /** From the second one on the paper is a copy. */
  readonly prints: readonly PrintView[];
  /** Taxed vouchers that a draft will take off. */
  readonly vouchersOff: readonly {
    readonly number: number;
    readonly code: string;
    readonly amountMinor: Minor;
  }[];
  /** Untaxed vouchers that paid on it, and what of that could go back to each. */
  readonly vouchersUsed: readonly { readonly number: number; readonly amountMinor: Minor }[];
  readonly split: SplitView | null;
  /** Who could pay a part of this draft; null where one pays all, or it is split already. */
  readonly secondPayer: string | null;
  readonly revision: number;
};

export const INVOICE_LISTS = ['draft', 'open', 'overdue', 'payBack', 'paid', 'all'] as const;

export type InvoiceList = (typeof INVOICE_LISTS)[number];

export type InvoiceRow = {
  readonly id: InvoiceId;
  readonly kind: InvoiceKind;
  readonly number: number | null;
  readonly jobId: JobId | null;
  readonly jobNumber: number | null;
  readonly customer: string;
  readonly makeModel: string;
  readonly issuedDay: LocalDay | null;
  readonly dueDay: LocalDay | null;
  readonly overdueDays: number;
  readonly toPayMinor: Minor;
  readonly owedMinor: Minor;
};

export type InvoicesPage = { readonly rows: readonly InvoiceRow[]; readonly total: number };
