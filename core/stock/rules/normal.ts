import jstat from 'jstat';

/**
 * Standard normal quantile: how many standard deviations cover a share `p` (0 < p < 1).
 * @example zOf(0.95) //=> 1.6448536
 */
export function zOf(p: number): number {
  return jstat.jStat.normal.inv(p, 0, 1);
}

/**
 * Standard normal loss: the mean amount by which a standard normal exceeds `x`.
 * @source L(x) = φ(x) − x·(1 − Φ(x)); Snyder & Shen, Fundamentals of Supply Chain Theory
 */
export function normalLoss(x: number): number {
  return jstat.jStat.normal.pdf(x, 0, 1) - x * (1 - jstat.jStat.normal.cdf(x, 0, 1));
}

/** The z at which the band P20–P80 lies either side of the middle. */
export const Z_80 = 0.8416212335729143;
