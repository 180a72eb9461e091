import type { BoardView, OfferView, PromiseNow } from '#core/shared/views/bays.ts';
import type { TimeScale } from '../../ui/time/scale.ts';
import type { Tick } from '../../ui/time/Time.tsx';
import type { Moves } from './useMoves.ts';

/** What the board and each of its lanes draw. */
export type BoardProps = {
  readonly board: BoardView;
  readonly scale: TimeScale;
  readonly ticks: readonly Tick[];
  readonly promises: readonly PromiseNow[];
  readonly moves: Moves;
  readonly offer: OfferView | null;
};
/** What a lane needs beyond that: its width in px, and how high a car in a bay is drawn. */
export type Room = { readonly width: number; readonly carHeight: number };
