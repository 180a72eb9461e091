import type { BayId, PersonId } from '#core/shared/ids.ts';
import type { BoardView, PromiseNow } from '#core/shared/views/bays.ts';
import type { OfferView } from '#core/shared/views/offers.ts';
import type { TimeScale } from '../../ui/time/scale.ts';
import type { Tick } from '../../ui/time/Time.tsx';
import type { Hands } from './useHands.ts';

/** A bay that is closed for a while, or somebody who is away. */
export type Paused =
  | { readonly bayId: BayId; readonly name: string }
  | { readonly personId: PersonId; readonly name: string };

/** What the board and each of its lanes draw. */
export type BoardProps = {
  readonly board: BoardView;
  readonly scale: TimeScale;
  readonly ticks: readonly Tick[];
  readonly promises: readonly PromiseNow[];
  readonly hands: Hands;
  readonly offer: OfferView | null;
  /** Opens what says when a place is closed or somebody away. */
  readonly onPause: (of: Paused) => void;
};
/** What a lane needs beyond that: its width in px, and how high a car in a bay is drawn. */
export type Room = { readonly width: number; readonly carHeight: number };
