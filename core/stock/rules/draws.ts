import { roundHalfAway } from '../../shared/units.ts';

/**
 * Planned amount times the factor, whole base units; of what comes in pieces at least one, and a broken plan rounded up
 * first: nobody washes half a pad, and what is learned moves a whole piece or none.
 */
export function proposedAmount(planned: number, factor: number, wholePieces: boolean): number {
  if (planned <= 0) return 0;
  return wholePieces
    ? Math.max(1, roundHalfAway(Math.ceil(planned - 1e-9) * factor))
    : roundHalfAway(planned * factor);
}

/** An item that can serve a material. */
export type Candidate = {
  readonly itemId: string;
  readonly preference: number;
  readonly onHand: number;
};

/**
 * Which item of a material is taken: in the shop's order of preference the first that has enough, else the one
 * with most, else the most preferred (its bottle was there, whatever the book says).
 */
export function pickItem(candidates: readonly Candidate[], amount: number): Candidate | null {
  const order = [...candidates].sort((a, b) => a.preference - b.preference || (a.itemId < b.itemId ? -1 : 1));
  const enough = order.find((c) => c.onHand >= amount);
  if (enough) return enough;
  let best = order[0] ?? null;
  for (const c of order) if (best && c.onHand > Math.max(0, best.onHand)) best = c;
  return best;
}
