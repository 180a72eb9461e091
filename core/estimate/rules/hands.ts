import { PPM } from '../../shared/units.ts';
import { PAIR_STAGES, type PairStage } from '../../shared/views/estimate.ts';
import type { StageKind } from '../../shared/vocabulary.ts';

/** Which stages two people do together, and what they get done against one, ppm: between once and twice as much. */
export type Hands = { readonly two: readonly PairStage[]; readonly pairPpm: number };

/** True for a stage that two people may do together. */
export function isPairStage(kind: StageKind): kind is PairStage {
  return PAIR_STAGES.some((pair) => pair === kind);
}

/** How many people are on a stage. */
export function crewOf(kind: StageKind, hands: Hands): 1 | 2 {
  return isPairStage(kind) && hands.two.includes(kind) ? 2 : 1;
}

/**
 * What the attended minutes of a stage are multiplied by for the people on it, all their minutes together: two that
 * do 1.8 times as much take 2 / 1.8 of one person's minutes, in 1 / 1.8 of the time.
 * @example handsFactor('cut', { two: ['cut'], pairPpm: 1_800_000 }) //=> 1.111…
 * @source the share: common practice, no source
 */
export function handsFactor(kind: StageKind, hands: Hands): number {
  return crewOf(kind, hands) === 2 ? (2 * PPM) / hands.pairPpm : 1;
}
