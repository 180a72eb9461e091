import type { ItemId } from '../ids.ts';
import type { EpochMs, LocalDay, Minor } from '../units.ts';
import type { BaseUnit } from '../vocabulary.ts';
import type { Sentence } from './stockSentence.ts';

export const READ_HOW = ['opened', 'level', 'weight', 'book'] as const;
/**
 * Where the figure of what is left comes from: full when it was opened, a level by eye, the scales; or the book, carried
 * past lines of the ledger that another container of the item answers for.
 */
export type ReadHow = (typeof READ_HOW)[number];

export const CLOSED_AS = ['empty', 'thrown'] as const;
/** Used up, or thrown away with what was in it. */
export type ClosedAs = (typeof CLOSED_AS)[number];

/** A bottle, tub or roll in use. */
export type ContainerView = {
  readonly id: string;
  readonly itemId: ItemId;
  readonly unit: BaseUnit;
  /** Base units when full, and what is left by now: the last reading less what was drawn since. */
  readonly holds: number;
  readonly rest: number;
  readonly batch: string;
  readonly openedDay: LocalDay;
  /** First day on which it is out of its opened life; null = it keeps. */
  readonly throwDay: LocalDay | null;
  /** When and how somebody last looked into it. */
  readonly readMs: EpochMs;
  readonly how: Exclude<ReadHow, 'book'>;
  /** Of the last time a container of the item was weighed. */
  readonly tareMg: number | null;
  readonly gramsPerLitre: number | null;
};

/** Something past its life that is still counted as on hand: an opened container, or sealed packs of a delivery. */
export type ThrowAwayView = {
  /** The container; null for sealed packs. */
  readonly containerId: string | null;
  readonly itemId: ItemId;
  readonly amount: number;
  readonly valueMinor: Minor;
  readonly sentence: Sentence;
  /** Why, as it will stand in the ledger. */
  readonly why: Sentence;
};

/** What a reading did: what is left, and by how much the book was put right. */
export type ContainerRead = {
  readonly rest: number;
  readonly difference: number;
  readonly onHand: number;
};
