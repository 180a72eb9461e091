import type { SaidThing } from '../listPrices.ts';
import type { LocalDay } from '../units.ts';

/** Facts about either side that the invoice for machines cannot do without. */
export type UblFact = 'shopCountry' | 'shopTaxNumber' | 'customerCountry' | 'customerTaxNumber';

/** Refusals of the billing area: code → data. Every code has its sentence in core/shared/text. */
export type BillingErrors = {
  readonly CURRENCY_UNKNOWN: { readonly code: string };
  /** Money was given that nothing asks for. */
  readonly CASH_NOT_ROUND: { readonly askedMinor: number; readonly nearMinor: number };
  readonly CASH_MOVED: { readonly nowMinor: number };
  readonly BANKED_ABOVE_COUNTED: { readonly countedMinor: number; readonly bankedMinor: number };
  /** Only the first count of a till says what lay in it before. */
  readonly TILL_OPENED: Readonly<Record<string, never>>;
  readonly CASH_NEEDS_REASON: { readonly differenceMinor: number };
  readonly MONEY_ABOVE_OWED: { readonly owedMinor: number; readonly aboveMinor: number };
  readonly REFUND_ABOVE_PAID: { readonly paidMinor: number; readonly askedMinor: number };
  readonly CREDIT_ABOVE_LINE: {
    readonly line: string;
    readonly lineMinor: number;
    readonly askedMinor: number;
  };
  readonly CREDIT_ABOVE_INVOICE: { readonly leftMinor: number; readonly askedMinor: number };
  readonly NOTHING_TO_CREDIT: Readonly<Record<string, never>>;
  /** A discount takes off more than the lines ask for; what is given back goes by a credit note. */
  readonly BILL_BELOW_ZERO: { readonly belowMinor: number };
  readonly NOTHING_TO_BILL: Readonly<Record<string, never>>;
  /** The bill says that the work of job number `job` was done, and it is not; `here`: its car is. */
  readonly BILL_AHEAD_OF_WORK: { readonly job: number; readonly here: boolean };
  /** A partial invoice bills a line further than its stages are finished. */
  readonly PARTIAL_AHEAD_OF_WORK: { readonly job: number; readonly here: boolean };
  /** A partial invoice bills part of what was agreed. */
  readonly PARTIAL_NOT_AGREED: Readonly<Record<string, never>>;
  /** A partial invoice of the job waits to be issued. */
  readonly PARTIAL_DRAFTED: Readonly<Record<string, never>>;
  /** All that was asked for was billed before. */
  readonly PARTIAL_NOTHING: Readonly<Record<string, never>>;
  /** With the prepayment invoices that are still to be taken off it comes to more than the job does. */
  readonly PARTIAL_PREPAID: { readonly leftMinor: number };
  /** Its lines follow from the agreed ones, and the rest follows from them. */
  readonly PARTIAL_LINES: Readonly<Record<string, never>>;
  /** The customer agreed to another version of the quote after it was drafted. */
  readonly PARTIAL_REQUOTED: Readonly<Record<string, never>>;
  readonly PARTIAL_ABOVE_LINE: { readonly text: string; readonly leftMinor: number };
  /** The partial invoices, the last of which is `number`, come to more than all that is billed. */
  readonly PARTIALS_ABOVE: { readonly number: number; readonly aboveMinor: number };
  readonly ISSUE_DATE_BEHIND: { readonly today: LocalDay; readonly lastDay: LocalDay };
  readonly ISSUE_DATE_AHEAD: { readonly today: LocalDay; readonly lastDay: LocalDay };
  readonly NUMBER_TO_CONFIRM: { readonly last: number };
  readonly PAPER_NUMBER_TOO_LOW: { readonly last: number; readonly paper: number };
  /** Nothing makes the series of numbers doubtful, so nothing may move it. */
  readonly NUMBER_CERTAIN: { readonly last: number };
  readonly NO_DEPOSIT_HELD: Readonly<Record<string, never>>;
  /** A deposit is for a job that is still to be done; a moved one for another. */
  readonly DEPOSIT_WHERE_TO: Readonly<Record<string, never>>;
  /** With what is held it comes to more than the quote asks for in all: a slip, or meant. */
  readonly DEPOSIT_ABOVE_QUOTE: { readonly quotedMinor: number; readonly aboveMinor: number };
  /** A deposit is taken off the job's invoice, and that is issued already. */
  readonly DEPOSIT_BILLED: { readonly number: number };
  readonly INVOICE_ISSUED: { readonly number: number };
  readonly INVOICES_OF_SEVERAL: Readonly<Record<string, never>>;
  readonly INVOICE_NOT_ISSUED: Readonly<Record<string, never>>;
  readonly NOT_OVERDUE: { readonly number: number };
  readonly QUOTE_STATE: { readonly state: string };
  readonly QUOTE_LAPSED: { readonly validDay: LocalDay };
  readonly OPTION_UNKNOWN: { readonly letter: string };
  readonly TAX_MIXED_OUTSIDE: Readonly<Record<string, never>>;
  readonly ESTIMATES_OF_OTHER_JOB: Readonly<Record<string, never>>;
  /** What the estimate is for is not what the package is for. */
  readonly PACKAGE_OTHER_WORK: { readonly name: string };
  /** A package has one price: neither by time nor a price that is not gone above. */
  readonly PACKAGE_FIXED: Readonly<Record<string, never>>;
  /** More than a ZIP holds; `files` fitted. */
  readonly FOLDER_TOO_LARGE: { readonly files: number };
  /** One of two invoices of a split bill: both sum to the whole only as they are. */
  readonly INVOICE_SPLIT: Readonly<Record<string, never>>;
  /** The owner of the job pays all of it. */
  readonly SPLIT_ONE_PAYER: Readonly<Record<string, never>>;
  /** A prepayment invoice is taken off the whole bill, not off parts. */
  readonly SPLIT_PREPAID: Readonly<Record<string, never>>;
  /** A voucher comes off the whole bill, and of two halves one could ask for less than nothing. */
  readonly SPLIT_VOUCHER: Readonly<Record<string, never>>;
  /** A prepayment invoice would have to come off half a bill. */
  readonly DEPOSIT_SPLIT: Readonly<Record<string, never>>;
  readonly SPLIT_ABOVE: { readonly wholeMinor: number };
  /** Of a collective invoice: a job that somebody else pays for. */
  readonly COLLECTIVE_OTHER_PAYER: { readonly number: number };
  readonly COLLECTIVE_DRAFTED: { readonly number: number };
  readonly COLLECTIVE_DEPOSIT: { readonly number: number };
  readonly COLLECTIVE_PARTIAL: { readonly number: number };
  /** A collective invoice has a line for each of its jobs, each as it was drafted. */
  readonly COLLECTIVE_LINES: Readonly<Record<string, never>>;
  /** Some jobs were priced with tax, others before it. */
  readonly COLLECTIVE_MIXED: Readonly<Record<string, never>>;
  readonly JOB_ALREADY_BILLED: { readonly number: number };
  readonly UBL_CURRENCY_DIGITS: { readonly currency: string };
  /** A line has one tax in the format. */
  readonly UBL_STACKED_TAX: { readonly text: string };
  /** What the format asks for and nobody has entered yet. */
  readonly UBL_INCOMPLETE: { readonly lacks: readonly UblFact[] };
  /** The price list has nothing for a panel at what is to be done to it. */
  readonly PANEL_UNPRICED: { readonly panel: string; readonly level: string };
  /** The first price of the thing begins on a later day. */
  readonly THING_NOT_YET: SaidThing & { readonly fromDay: LocalDay };
  /** The shop no longer sells it. */
  readonly THING_ENDED: SaidThing & { readonly endedDay: LocalDay };
  /** So many pieces of one thing: a slip, or meant. */
  readonly THING_MANY: SaidThing & { readonly quantity: number };
  /** Beyond what is reckoned exactly. */
  readonly THING_TOO_MUCH: SaidThing & { readonly quantity: number };
  /** The discount takes off more than the pieces cost. */
  readonly THING_DISCOUNT: SaidThing & { readonly wholeMinor: number; readonly discountMinor: number };
  /** The estimate was priced with tax and the list is not, or the other way round. */
  readonly THING_OTHER_TAX: { readonly withTax: boolean };
  readonly VOUCHER_UNKNOWN: { readonly number: number };
  readonly VOUCHER_CODE_LENGTH: { readonly code: string; readonly signs: number; readonly given: number };
  /** Figures and letters that are taken for others are in no code. */
  readonly VOUCHER_CODE_SIGN: { readonly sign: string };
  /** Its last sign does not fit the others. */
  readonly VOUCHER_CODE_TYPO: { readonly code: string };
  readonly VOUCHER_CODE_UNKNOWN: { readonly code: string };
  readonly VOUCHER_EXPIRED: { readonly number: number; readonly lastDay: LocalDay };
  readonly VOUCHER_SPENT: {
    readonly number: number;
    readonly leftMinor: number;
    readonly askedMinor: number;
  };
  /** One that is taxed when it is sold is sold by an invoice, which names whoever buys. */
  readonly VOUCHER_NEEDS_BUYER: Readonly<Record<string, never>>;
  readonly VOUCHER_NO_LAST_DAY: { readonly number: number };
  /** Its money is held for a time after its last day. */
  readonly VOUCHER_STILL_HELD: { readonly number: number; readonly fromDay: LocalDay };
  readonly VOUCHER_EMPTY: { readonly number: number };
  readonly VOUCHER_NOT_LET_GO: { readonly number: number };
  /** It is taken until a later day than now, and not one in the past. */
  readonly VOUCHER_LATE_DAY: { readonly number: number; readonly fromDay: LocalDay };
  /** It was taxed when it was sold, so it comes off before a document is issued. */
  readonly VOUCHER_ON_DRAFT: { readonly number: number };
  /** The document asks for less at the voucher's kind of tax than the voucher takes off. */
  readonly VOUCHER_OTHER_TAX: { readonly number: number };
  /** Its sale stands on an invoice, so only a credit note takes it back. */
  readonly VOUCHER_TAXED: { readonly number: number };
  readonly PERIOD_REVERSED: { readonly fromDay: LocalDay; readonly toDay: LocalDay };
};
