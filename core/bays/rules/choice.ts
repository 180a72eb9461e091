import type { PersonId } from '#core/shared/ids.ts';
import type { OfferKind } from '#core/shared/views/offers.ts';
import type { Span } from './calendar.ts';
import type { Ask } from './placer.ts';
import type { Promised } from './promised.ts';

/** What the customer asked for. `day` is a span of minutes in which the car is to come, or, if it is here, to be fetched. */
export type OfferWish = {
  readonly notBeforeMin: number;
  readonly technicianId: PersonId | null;
  readonly day: Span | null;
  readonly count: number;
  readonly levelPpm: number;
};

/** A dated offer: what kind it is, what was asked of its place, and what can be promised of it. */
export type Choice = Promised & { readonly kind: OfferKind; readonly ask: Ask };
