import type { EpochMin, LocalDay, Ppm } from '#core/shared/units.ts';
import type { StageKind } from '#core/shared/vocabulary.ts';

/** A job, and what the shop would not get if it failed: its agreed sum, else its quoted one, else the usual job's; of a redo nothing. */
export type Stake = {
  readonly jobId: string;
  readonly jobNumber: number;
  readonly customer: string;
  readonly worthMinor: number;
};

/** All that the page is made of, gathered in one snapshot. Money in minor units, times in minutes. */
export type MondayFacts = {
  readonly today: LocalDay;
  readonly currency: string;
  readonly promises: readonly (Stake & {
    readonly pickUpMin: EpochMin;
    /** Its time has passed, or nothing of it is on the board: then no chance is worth telling. */
    readonly stands: 'open' | 'passed' | 'noWork';
    /** The chance as things stand (0 where it passed or has no work), and with the surest way out; null = no way out was found on the board, untried = nobody looked. */
    readonly nowPpm: Ppm;
    readonly bestPpm: Ppm | null;
    readonly remedy: 'technician' | 'time' | 'wash' | 'later' | 'untried' | null;
  })[];
  readonly padsToWash: readonly (Stake & {
    readonly itemName: string;
    readonly day: LocalDay;
    readonly lacking: number;
  })[];
  readonly stockStops: readonly {
    readonly itemId: string;
    readonly itemName: string;
    readonly packs: number;
    readonly supplier: string;
    readonly day: LocalDay;
    readonly stopped: readonly Stake[];
  }[];
  readonly overdue: readonly {
    readonly invoiceId: string;
    readonly number: number;
    readonly customer: string;
    readonly owedMinor: number;
    readonly overdueDays: number;
  }[];
  readonly toBill: readonly Stake[];
  readonly quotes: readonly (Stake & { readonly validUntilDay: LocalDay; readonly lapsed: boolean })[];
  /** Share of the quotes of the past year that were agreed to, and how many that was of. */
  readonly accepted: { readonly ppm: Ppm; readonly of: number };
  readonly idle: {
    readonly freeMin: number;
    readonly wantedMin: number;
    readonly requests: readonly (Stake & { readonly minutes: number })[];
    /** What a bay hour brought lately after materials. */
    readonly perBayHourMinor: number;
  };
  readonly drift: readonly {
    readonly stage: StageKind;
    readonly stages: number;
    readonly driftPpm: Ppm;
    readonly aheadMin: number;
    /** What an hour worked brought lately after materials. */
    readonly perHourMinor: number;
  }[];
};
