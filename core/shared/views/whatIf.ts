import type { PersonId } from '../ids.ts';
import type { LocalDay, Minor, Ppm } from '../units.ts';
import type { BayKind } from '../vocabulary.ts';
import type { WhatIfChange } from '../whatIfChange.ts';
import type { Purpose } from './bookings.ts';

/** What a what-if tells of the shop, in the order it is shown. */
export const WHAT_IF_MEASURES = ['jobs', 'wait', 'stay', 'kept', 'bays', 'people', 'net', 'margin'] as const;
export type WhatIfMeasure = (typeof WHAT_IF_MEASURES)[number];

/** What the runs came to: the middle one, and between these two nine of ten lay (5th and 95th percentile). */
export type Band = { readonly low: number; readonly mid: number; readonly high: number };

/**
 * One measure. Units: jobs a week · wait and stay in days · kept, bays, people as a share from 0 to 1 · net and margin
 * in minor units a week. `difference` is after less before in the same run, so its band is its own.
 */
export type WhatIfRow = {
  readonly measure: WhatIfMeasure;
  /** As it really was in these weeks; null = not on record. */
  readonly past: number | null;
  readonly before: Band;
  readonly after: Band;
  readonly difference: Band;
};

/** What no run can know. Each has its sentence. */
export const WHAT_IF_LIMITS = [
  'turnedAway',
  'sameAsks',
  'anyWait',
  'price',
  'newPerson',
  'newBay',
  'longer',
  'mix',
  'ownWaits',
  'book',
  'shopHeld',
] as const;
export type WhatIfLimit = (typeof WHAT_IF_LIMITS)[number];

export type WhatIfView = {
  /** What was asked for. */
  readonly change: WhatIfChange;
  readonly fromDay: LocalDay;
  readonly toDay: LocalDay;
  readonly weeks: number;
  /** Finished jobs that arrivals and durations are drawn from. */
  readonly finished: number;
  /** Runs that are in the bands; fewer than asked for when it was stopped, and no rows when there was none. */
  readonly rounds: number;
  readonly roundsAsked: number;
  readonly rows: readonly WhatIfRow[];
  /** Share of the recorded waits for a date, and of the pauses in the shop, that were the customers' and the plan's own. */
  readonly ownWaitPpm: Ppm;
  readonly ownPausePpm: Ppm;
  readonly limits: readonly WhatIfLimit[];
};

/** What the questions are asked about: the shop as it stands, and whether its record is long enough. */
export type WhatIfStart = {
  readonly fromDay: LocalDay;
  readonly toDay: LocalDay;
  readonly weeks: number;
  readonly finished: number;
  /** So many finished jobs are needed before runs mean anything. */
  readonly needed: number;
  readonly purposes: readonly {
    readonly purpose: Purpose;
    readonly jobs: number;
    readonly sharePpm: Ppm;
  }[];
  readonly bays: readonly { readonly kind: BayKind; readonly count: number }[];
  /** `weekMinor`: what their hours of a full week cost the shop now; null where nobody said what an hour costs. */
  readonly people: readonly {
    readonly personId: PersonId;
    readonly name: string;
    readonly weekMinor: Minor | null;
  }[];
};
