import type { EpochMs, LocalDay, Minor } from '../units.ts';

/** One count of the till. */
export type CashCountRow = {
  readonly seq: number;
  readonly day: LocalDay;
  readonly atMs: EpochMs;
  readonly expectedMinor: Minor;
  readonly countedMinor: Minor;
  /** The change that lay in the till before any cash was taken; in the opening count only, and part of what is expected. */
  readonly floatMinor: Minor;
  /** Taken out to the bank after counting; in the opening count also before. */
  readonly bankedMinor: Minor;
  /** Why counted and expected differ; '' where they do not. */
  readonly reason: string;
  readonly by: string;
};

/** The till now: what should lie in it, and the last counts, newest first. */
export type TillView = { readonly expectedMinor: Minor; readonly counts: readonly CashCountRow[] };
