import type { PersonId } from '../ids.ts';
import type { LocalDay, Minor } from '../units.ts';
import type { Purpose } from './bookings.ts';
import type { PeriodKind } from './figures.ts';
import type { AgeingView } from './moneyDesk.ts';

/** What some jobs brought: before tax, material at the ledger's cost, redone work charged to the job it repeats. */
export type MoneySums = {
  /** Jobs that were collected; of a technician: that they worked on. */
  readonly jobs: number;
  readonly netMinor: Minor;
  readonly materialMinor: Minor;
  readonly workedMin: number;
  /** Open minutes in which their cars stood in a bay. */
  readonly bayMin: number;
  /** What the hours worked cost the shop, as far as it is known. */
  readonly labourMinor: Minor;
  /** Of the minutes worked, those of people whose hour had no cost then. */
  readonly unknownMin: number;
  /** Net less material and labour: what rent and the rest are paid from, and hours of which no cost is known. */
  readonly marginMinor: Minor;
  /** The margin per hour worked and per hour in a bay; null without any. */
  readonly perHourMinor: Minor | null;
  readonly perBayHourMinor: Minor | null;
};

export type MoneyRow<K extends string> = MoneySums & { readonly key: K; readonly name: string };

/** Quotes of a band that were answered or lapsed, and how many of them were agreed to. Bounds include `from`, not `to`. */
export type QuoteBand = {
  readonly from: number;
  readonly to: number | null;
  readonly answered: number;
  readonly accepted: number;
};

export type MoneyFiguresView = {
  readonly fromDay: LocalDay;
  readonly toDay: LocalDay;
  readonly currency: string;
  readonly total: MoneySums;
  readonly byKind: readonly MoneyRow<Purpose>[];
  /** A job is shared by the minutes each worked on it; the shares sum to the total. Jobs without any time stand last, under ''. */
  readonly byTechnician: readonly MoneyRow<PersonId | ''>[];
  readonly by: PeriodKind;
  readonly overTime: readonly (MoneySums & { readonly day: LocalDay; readonly toDay: LocalDay })[];
  /** As things stand now, whatever the range. */
  readonly now: { readonly depositsMinor: Minor; readonly creditsMinor: Minor; readonly ageing: AgeingView };
  readonly quotes: {
    /** By what was asked, in four bands of about as many quotes each; minor units with tax. */
    readonly byPrice: readonly QuoteBand[];
    /** By the whole days from the request to the quote. */
    readonly byWait: readonly QuoteBand[];
    readonly answered: number;
    readonly accepted: number;
  };
  /**
   * Work redone without pay, collected in the range: material and hours at cost, hours of which no cost is known at what
   * an hour brought in the range before labour.
   */
  readonly warranty: {
    readonly jobs: number;
    readonly workedMin: number;
    readonly materialMinor: Minor;
    readonly labourMinor: Minor;
    readonly costMinor: Minor;
  };
  /** Jobs collected in the range by whether their customer had one collected before. */
  readonly returning: { readonly jobs: number; readonly again: number; readonly customers: number };
};

/** Tables behind the money figures, as files. */
export const MONEY_TABLES = ['kind', 'technician', 'time', 'quotes', 'owed'] as const;
export type MoneyTable = (typeof MONEY_TABLES)[number];
