import type { Label } from './labels.ts';
import type { Board } from './model.ts';

/** Where a car stands when its work is over, and when it can be fetched there. */
export type Collected = { readonly label: Label; readonly pickUpMin: number; readonly readyMin: number };

export function finishIn(label: Label): number {
  for (let at: Label | null = label; at; at = at.from) if (at.piece) return at.piece.dwellEndMin;
  return label.freeMin;
}

/** Sooner back, then sooner ready; and a car that is to stand for long does not hold a bay while the yard has room. */
export function rank(board: Board, a: Collected, b: Collected): number {
  const pays = (c: Collected): number =>
    board.places[c.label.at]?.kind === 'yard' && c.pickUpMin - c.label.enterMin >= STANDS_LONG_MIN ? 1 : 0;
  return a.pickUpMin - b.pickUpMin || a.readyMin - b.readyMin || pays(b) - pays(a);
}
/** Standing less than this is not worth driving the car out for. Common practice, no source. */
const STANDS_LONG_MIN = 90;
