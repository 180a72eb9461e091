import type { JobId } from '../ids.ts';
import type { EpochMin, Ppm } from '../units.ts';
import type { JobPlanView } from './plan.ts';

export const OFFER_KINDS = [
  'soonestBack',
  'soonestIn',
  'leastWaiting',
  'technician',
  'day',
  'surer',
  'later',
] as const;

export type OfferKind = (typeof OFFER_KINDS)[number];

/** What keeps an offer from being earlier: found by lifting one limit at a time and placing again. */
export type BindingReason = {
  readonly kind:
    | 'bays'
    | 'people'
    | 'yard'
    | 'skill'
    | 'asked'
    | 'day'
    | 'deskHours'
    | 'openHours'
    | 'cure'
    | 'gap'
    | 'fresh'
    | 'dust'
    | 'slots'
    | 'sure'
    | 'stands'
    | 'workItself';
  /** Names of the bays, people or other cars; of `skill` and `gap` the key of the skill or the stage. */
  readonly names: readonly string[];
  /** Minutes sooner it could be picked up without this limit. */
  readonly gainMin: number;
};

export type OfferView = {
  readonly key: string;
  readonly kind: OfferKind;
  readonly dropOffMin: EpochMin;
  readonly pickUpMin: EpochMin;
  readonly probabilityPpm: Ppm;
  readonly bold: boolean;
  readonly p50Min: EpochMin;
  readonly p80Min: EpochMin;
  readonly p95Min: EpochMin;
  /** The share of simulated runs ready by each instant, rising. */
  readonly curve: readonly { readonly atMin: EpochMin; readonly ppm: Ppm }[];
  /** Handover slots before `pickUpMin` that the desk may choose knowingly. */
  readonly bolder: readonly { readonly pickUpMin: EpochMin; readonly probabilityPpm: Ppm }[];
  readonly bays: readonly string[];
  readonly people: readonly string[];
  readonly nights: number;
  readonly workMin: number;
  readonly waitMin: number;
  readonly why: BindingReason;
  readonly plan: JobPlanView;
};

export type OffersView = {
  readonly jobId: JobId;
  readonly planRevision: number;
  readonly offers: readonly OfferView[];
  /** Why there is one offer only; null where there are more. */
  readonly only: 'standsNowhere' | 'noOtherDay' | null;
};
