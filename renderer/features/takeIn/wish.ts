import type { EpochMs } from '#core/shared/units.ts';
import type { Purpose } from '#core/shared/views/bookings.ts';
import type { Ceiling, Protection, StatedCondition, Wish } from '#core/shared/views/estimate.ts';

/** What the customer wants, as told on the telephone. */
export type WishDraft = {
  readonly words: string;
  readonly far: Wish;
  readonly condition: StatedCondition;
  readonly protection: Protection;
  readonly interior: boolean;
  readonly ceiling: Ceiling | null;
  readonly backByMs: EpochMs | null;
  /** The car is first looked at; the work is booked afterwards. */
  readonly lookFirst: boolean;
};

export const noWish: WishDraft = {
  words: '',
  far: 'oneStage',
  condition: 'unknown',
  protection: 'sealant',
  interior: false,
  ceiling: null,
  backByMs: null,
  lookFirst: false,
};

/** What the job is for, from how far the customer wants to go. */
export function purposeOf(wish: WishDraft): Exclude<Purpose, 'redo'> {
  if (wish.lookFirst) return 'inspectionVisit';
  switch (wish.far) {
    case 'clean':
      return 'washOnly';
    case 'protect':
      return 'protection';
    case 'interior':
      return 'interior';
    case 'oneStage':
    case 'twoStage':
    case 'full':
      return 'correction';
  }
}
