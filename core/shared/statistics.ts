/// <reference path="./jstat.d.ts" />
import jstat from 'jstat';
import { mean, sampleVariance } from 'simple-statistics';

/**
 * Distributions and moments that the estimate, the film budget and the promises rest on.
 * Normal quantiles come from jstat (agrees with published values to 13 digits); its Student quantile is good to
 * only 7–8 digits, so that one is computed here from the incomplete beta function.
 */

/** Quantile of the standard normal distribution. `p` in (0, 1). `normalQuantile(0.8) //=> 0.84162…` */
export function normalQuantile(p: number): number {
  return jstat.jStat.normal.inv(p, 0, 1);
}

/** P(Z ≤ z) of the standard normal distribution. */
export function normalCdf(z: number): number {
  return jstat.jStat.normal.cdf(z, 0, 1);
}

export const Z80 = normalQuantile(0.8);
export const Z95 = normalQuantile(0.95);
export const Z975 = normalQuantile(0.975);

/** Quantile of a lognormal with log mean `mu` and log standard deviation `sigma`. */
export function lognormalQuantile(p: number, mu: number, sigma: number): number {
  return Math.exp(mu + sigma * normalQuantile(p));
}

export function meanOf(values: readonly number[]): number {
  return mean([...values]);
}

/** Sample standard deviation (n − 1), two passes; 0 for a single value. */
export function sdOf(values: readonly number[]): number {
  return values.length < 2 ? 0 : Math.sqrt(sampleVariance([...values]));
}

/**
 * Quantile of Student's t. `p` in (0, 1), `df` > 0, also fractional (Welch).
 * Newton steps on the exact distribution function, safeguarded by bisection.
 * @source distribution through the regularised incomplete beta function, I_x(df/2, 1/2)
 */
export function studentQuantile(p: number, df: number): number {
  if (p === 0.5) return 0;
  if (p < 0.5) return -studentQuantile(1 - p, df);
  const key = `${p}/${df}`;
  const known = quantiles.get(key);
  if (known !== undefined) return known;
  if (quantiles.size >= MOST_KEPT) quantiles.clear();
  const found = solveStudent(p, df);
  quantiles.set(key, found);
  return found;
}

/** A gauge's few readings ask for the same few quantiles again and again. */
const quantiles = new Map<string, number>();
const MOST_KEPT = 1000;

function solveStudent(p: number, df: number): number {
  let low = 0;
  let high = 2;
  while (studentCdf(high, df) < p) high *= 2;
  let t = Math.min(high, normalQuantile(p));
  for (let i = 0; i < 100 && high - low > 1e-14 * high; i += 1) {
    const gap = studentCdf(t, df) - p;
    if (gap > 0) high = t;
    else low = t;
    const step = t - gap / studentDensity(t, df);
    const next = step > low && step < high ? step : (low + high) / 2;
    if (Math.abs(next - t) < 1e-15 * next) return next;
    t = next;
  }
  return t;
}

/** P(T ≤ t) for Student's t with `df` degrees of freedom. */
export function studentCdf(t: number, df: number): number {
  const tail = incompleteBeta(df / (df + t * t), df / 2, 0.5) / 2;
  return t > 0 ? 1 - tail : tail;
}

function studentDensity(t: number, df: number): number {
  const log = logGamma((df + 1) / 2) - logGamma(df / 2) - 0.5 * Math.log(df * Math.PI);
  return Math.exp(log - ((df + 1) / 2) * Math.log1p((t * t) / df));
}

/** ln Γ(x), x > 0: Stirling's series after shifting x above 10. @source Abramowitz & Stegun 6.1.41, from memory */
function logGamma(x: number): number {
  let shift = 0;
  let z = x;
  for (; z < 10; z += 1) shift -= Math.log(z);
  const r = 1 / (z * z);
  const series = (1 / 12 - r * (1 / 360 - r * (1 / 1260 - r * (1 / 1680 - r / 1188)))) / z;
  return shift + (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + series;
}

/** Regularised incomplete beta I_x(a, b) by its continued fraction. @source Abramowitz & Stegun 26.5.8, from memory */
function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const log = logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x);
  return (Math.exp(log) / a) * betaFraction(x, a, b);
}

/** Modified Lentz evaluation; converges in some ten terms for x below the mean. */
function betaFraction(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  let c = 1;
  let d = 1 / keep(1 - ((a + b) * x) / (a + 1), tiny);
  let h = d;
  for (let m = 1; m <= 500; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / keep(1 + even * d, tiny);
    c = keep(1 + even / c, tiny);
    h *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / keep(1 + odd * d, tiny);
    c = keep(1 + odd / c, tiny);
    h *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return h;
}

function keep(value: number, tiny: number): number {
  return Math.abs(value) < tiny ? tiny : value;
}

/**
 * Effective degrees of freedom of a combined standard uncertainty.
 * @source Welch–Satterthwaite, JCGM 100:2008 (GUM) G.4.1
 */
export function effectiveDf(parts: readonly { readonly u: number; readonly df: number }[]): number {
  const total = parts.reduce((sum, p) => sum + p.u ** 2, 0);
  const weighted = parts.reduce((sum, p) => sum + p.u ** 4 / p.df, 0);
  return weighted === 0 ? Number.POSITIVE_INFINITY : total ** 2 / weighted;
}

/** Root of the sum of squares: uncertainties that are independent add this way. @source GUM 5.1.2 */
export function inQuadrature(...parts: readonly number[]): number {
  return Math.hypot(...parts);
}
