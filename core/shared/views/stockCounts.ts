import type { ItemId } from '../ids.ts';
import type { EpochMs, LocalDay } from '../units.ts';
import type { BaseUnit } from '../vocabulary.ts';
import type { ListFault } from './stockItem.ts';

/** By what a year's use is worth: the dearest are counted most often. */
export type CountClass = 'A' | 'B' | 'C';

/** Why a count is on the day's list: asked for, more drawn than the book had, its turn, or draws corrected since. */
export type CountWhy = 'negative' | 'cycle' | 'full' | 'asked' | 'corrected';

/** One item to count today. */
export type CountPlanRow = {
  readonly itemId: ItemId;
  readonly itemName: string;
  readonly place: string;
  readonly barcode: string;
  readonly unit: BaseUnit;
  readonly packSize: number;
  readonly packWord: string;
  readonly of: CountClass;
  readonly why: CountWhy;
  /** Null = never counted. */
  readonly lastCountMs: EpochMs | null;
  /** Last line of its ledger now: a count beside it leaves later draws alone. */
  readonly asOfMovementId: number;
};

/** The day's list, by shelf, and how many items wait for a later day. */
export type CountPlan = {
  readonly today: LocalDay;
  readonly rows: readonly CountPlanRow[];
  readonly later: number;
};

/** What a list of counts would change, before anything is changed. */
export type CountImportReport = {
  /** Lines in the list, those with faults and those without a figure included. */
  readonly rows: number;
  readonly empty: number;
  readonly counted: readonly {
    readonly itemName: string;
    readonly unit: BaseUnit;
    readonly counted: number;
    readonly difference: number;
  }[];
  readonly faults: readonly ListFault[];
};
