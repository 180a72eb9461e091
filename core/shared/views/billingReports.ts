import type { TaxCategory } from '../tax.ts';
import type { LocalDay, Minor, Ppm } from '../units.ts';

export const TAX_BASES = ['invoice', 'payment'] as const;

export type TaxBasis = (typeof TAX_BASES)[number];

export type TaxReportRow = {
  readonly category: TaxCategory;
  readonly ratePpm: Ppm;
  readonly name: string;
  readonly taxableMinor: Minor;
  /** What it adds to all that was sold before tax: a further tax on the same sale adds nothing. */
  readonly netMinor: Minor;
  readonly taxMinor: Minor;
  readonly documents: number;
};

export type TaxReport = {
  readonly fromDay: LocalDay;
  readonly toDay: LocalDay;
  readonly basis: TaxBasis;
  readonly currency: string;
  readonly rows: readonly TaxReportRow[];
  readonly taxableMinor: Minor;
  readonly taxMinor: Minor;
};

export type TakenMoney = {
  readonly receipt: number;
  readonly appliedMinor: Minor;
  readonly surplusMinor: Minor;
  readonly owedMinor: Minor;
};

/** Money of one job, everything with tax; null while there is nothing of the kind. */
export type JobMoney = {
  readonly quotedMinor: Minor | null;
  readonly quoteState: 'none' | 'draft' | 'sent' | 'accepted' | 'lapsed';
  /** Held for it now: not yet on an invoice, kept, paid back or moved. */
  readonly depositMinor: Minor | null;
  readonly invoicedMinor: Minor | null;
  /** Laid on its documents, and what is held. */
  readonly paidMinor: Minor | null;
  readonly owedMinor: Minor | null;
  /** Asked for on partial invoices while the rest is not billed yet; null without any, and once it is. */
  readonly partlyMinor: Minor | null;
};
