/** What a test spot on this very car showed: one section, or several, with the step that was tried. */
export type TestSpot = { readonly actualS: number; readonly modelS: number };

/**
 * Scatter (log) of a single test spot against the whole job: a spot is done with care and without interruptions.
 * @source common practice, no source
 */
export const SPOT_SIGMA = 0.12;

/**
 * What the job shares with itself after its test spots: each is one heavily weighted observation of this car,
 * combined with the shop's usual scatter between jobs. No spots: the prior.
 * `modelS` already holds the shop's calibration for the stage kind.
 * @source normal prior with normal observations
 */
export function jobAfterSpots(
  spots: readonly TestSpot[],
  priorVariance: number,
): { readonly jobLog: number; readonly jobVariance: number } {
  const usable = spots.filter((s) => s.actualS > 0 && s.modelS > 0);
  if (usable.length === 0) return { jobLog: 0, jobVariance: priorVariance };
  const precision = 1 / priorVariance + usable.length / SPOT_SIGMA ** 2;
  const sum = usable.reduce((a, s) => a + Math.log(s.actualS / s.modelS), 0);
  return { jobLog: sum / SPOT_SIGMA ** 2 / precision, jobVariance: 1 / precision };
}
