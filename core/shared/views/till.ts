import type { EpochMs, LocalDay, Minor } from '../units.ts';

/** One count of the till. */
export type CashCountRow = {
  readonly seq: number;
  readonly day: LocalDay;
  readonly atMs: EpochMs;
  readonly expectedMinor: Minor;
  readonly countedMinor: Minor;
  /** Taken out to the bank after counting. */
  readonly bankedMinor: Minor;
  /** Why counted and expected differ; '' where they do not. */
  readonly reason: string;
  readonly by: string;
};

/** The till now: what should lie in it, and the last counts, newest first. */
export type TillView = { readonly expectedMinor: Minor; readonly counts: readonly CashCountRow[] };
