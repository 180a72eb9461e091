import type { EpochMin, LocalDay, Minor, Ppm } from '../units.ts';
import type { StageKind } from '../vocabulary.ts';

/** What a week can be lost by. Where two are worth the same, the earlier in this list comes first. */
export const MONDAY_KINDS = [
  'promises',
  'padsToWash',
  'stockStops',
  'overdue',
  'toBill',
  'quotesLapse',
  'idleBays',
  'drift',
] as const;
export type MondayKind = (typeof MONDAY_KINDS)[number];

/** A value inside a sentence, still in storage units; who shows it writes it in the shop's units and language. */
export type MondayValue =
  | string
  | number
  | { readonly is: 'money'; readonly minor: Minor }
  | { readonly is: 'day'; readonly day: LocalDay }
  | { readonly is: 'dayTime'; readonly atMin: EpochMin }
  | { readonly is: 'hours'; readonly minutes: number }
  | { readonly is: 'share'; readonly ppm: Ppm }
  | { readonly is: 'stage'; readonly stage: StageKind };

/** The text `monday.<key>` with its values. */
export type MondaySentence = {
  readonly key: string;
  readonly values: Readonly<Record<string, MondayValue>>;
};

/** One case of a thing to do, and where in the program it is done. */
export type MondayCase = { readonly said: MondaySentence; readonly to: string };

/** One thing worth doing this week. */
export type MondayThing = {
  readonly kind: MondayKind;
  /** What doing it saves or brings, before tax where it is work; the order of the page. */
  readonly savedMinor: Minor;
  /** Promises that would be kept by it; 0 where none hangs on it. */
  readonly promises: number;
  readonly said: MondaySentence;
  /** How the number came about. */
  readonly why: MondaySentence;
  /** The cases that weigh most, at most three, and how many more there are. */
  readonly cases: readonly MondayCase[];
  readonly moreCases: number;
  /** The place of the program where it is done. */
  readonly to: string;
};

export type MondayView = {
  readonly today: LocalDay;
  readonly currency: string;
  /** At most five, the most worth first. */
  readonly things: readonly MondayThing[];
  /** What else was found and weighs less. */
  readonly others: readonly { readonly kind: MondayKind; readonly savedMinor: Minor }[];
  /** Kinds that were looked at and ask for nothing. */
  readonly clear: readonly MondayKind[];
};
