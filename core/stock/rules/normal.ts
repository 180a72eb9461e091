import { normalCdf, normalQuantile, Z80 } from '../../shared/statistics.ts';

/**
 * Standard normal quantile: how many standard deviations cover a share `p` (0 < p < 1).
 * @example zOf(0.95) //=> 1.6448536
 */
export function zOf(p: number): number {
  return normalQuantile(p);
}

/**
 * Expected amount by which a standard normal exceeds `z`.
 * @example normalLoss(1) //=> 0.0833154705877
 */
export function normalLoss(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI) - z * (1 - normalCdf(z));
}

/** The z at which the band P20–P80 lies either side of the middle. */
export const Z_80 = Z80;
