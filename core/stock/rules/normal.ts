import { normalCdf, normalQuantile, Z80 } from '../../shared/statistics.ts';

/**
 * Standard normal quantile: how many standard deviations cover a share `p` (0 < p < 1).
 * @example zOf(0.95) //=> 1.6448536
 */
export function zOf(p: number): number {
  return normalQuantile(p);
}

/**
 * Standard normal loss: the mean amount by which a standard normal exceeds `x`.
 * @source L(x) = φ(x) − x·(1 − Φ(x)); Snyder & Shen, Fundamentals of Supply Chain Theory
 */
export function normalLoss(x: number): number {
  return Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI) - x * (1 - normalCdf(x));
}

/** The z at which the band P20–P80 lies either side of the middle. */
export const Z_80 = Z80;
