import { roundHalfAway } from '../../shared/units.ts';

/** Past stages of one kind that used one material: planned and really drawn, base units. */
export type DrawHistory = { readonly n: number; readonly planned: number; readonly drawn: number };

/** So many imagined stages that went to plan stand behind every factor. Common practice, no source. */
export const PRIOR_STAGES = 5;

/**
 * How much a stage really uses of a material, as a factor on the plan: ratio of sums, pulled towards 1 by
 * `PRIOR_STAGES` stages of average size that went to plan.
 * @example drawFactor({ n: 5, planned: 500, drawn: 700 }) //=> 1.2
 */
export function drawFactor(past: DrawHistory): number {
  if (past.n === 0 || past.planned <= 0) return 1;
  const prior = (past.planned / past.n) * PRIOR_STAGES;
  return (prior + past.drawn) / (prior + past.planned);
}

/** Planned amount times the factor, whole base units; pieces are rounded up, nobody washes half a pad. */
export function proposedAmount(planned: number, factor: number, wholePieces: boolean): number {
  if (planned <= 0) return 0;
  return wholePieces ? Math.ceil(planned * factor - 1e-9) : roundHalfAway(planned * factor);
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
