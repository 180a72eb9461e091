import { lognormalQuantile } from '../../shared/statistics.ts';
import type { StageKind } from '../../shared/vocabulary.ts';
import type { Calibration, Effect } from './learning.ts';
import type { AfterSpots } from './testSpot.ts';

/** One uncertain duration: lognormal, log minutes. `shared` is the part of its variance that all stages share. */
export type Duration = { readonly mu: number; readonly sigma: number; readonly shared: number };

export type Total = {
  readonly mean: number;
  readonly sd: number;
  readonly mu: number;
  readonly sigma: number;
};

/** What is known about this very job beyond the shop's past: from a test spot, or less than usual when unseen. */
export type JobKnowledge = AfterSpots & {
  readonly technician: string | null;
  readonly condition: string;
};

/**
 * Predicted duration of a stage: the model's minutes times the learned effects. The spread holds chance, the job's
 * own effect and what is not yet known about every effect; a kind that a test spot tried goes by the spot. `minutes` > 0.
 */
export function stageDuration(minutes: number, kind: StageKind, job: JobKnowledge, c: Calibration): Duration {
  const unseen = (n: number): Effect => ({ log: 0, variance: n, n: 0 });
  const stage = c.kind.get(kind) ?? unseen(c.unseen.kind);
  const technician =
    (job.technician === null ? undefined : c.technician.get(job.technician)) ?? unseen(c.unseen.technician);
  const condition = c.condition.get(job.condition) ?? unseen(c.unseen.condition);
  const untried = { log: job.jobLog, variance: job.jobVariance, shared: job.jobVariance, told: 0 };
  const own = job.tried.get(kind) ?? untried;
  const always = c.shop.variance + technician.variance + condition.variance;
  return {
    mu: Math.log(minutes) + c.shop.log + stage.log + technician.log + condition.log + own.log,
    sigma: Math.sqrt(always + own.variance + stage.variance + c.stageVariance - own.told),
    shared: always + own.shared,
  };
}

/** Mean of a lognormal duration, minutes. */
export function meanMinutes(d: Pick<Duration, 'mu' | 'sigma'>): number {
  return Math.exp(d.mu + d.sigma ** 2 / 2);
}

/**
 * The sum of lognormal durations as one lognormal with the same mean and variance. Covariance of two stages comes
 * from the effects that they share: cov = E₁·E₂·(e^shared − 1). All `shared` 0 gives the independent sum.
 * @source L. F. Fenton, IRE Trans. Commun. Syst. 8 (1960) 57–67
 */
export function totalOf(durations: readonly Duration[]): Total {
  const means = durations.map(meanMinutes);
  const mean = means.reduce((a, b) => a + b, 0);
  if (mean === 0) return { mean: 0, sd: 0, mu: 0, sigma: 0 };
  let variance = 0;
  durations.forEach((d, i) => {
    const e = means[i] ?? 0;
    variance += e * e * Math.expm1(d.sigma ** 2);
    for (let k = i + 1; k < durations.length; k += 1) {
      const shared = Math.min(d.shared, durations[k]?.shared ?? 0);
      variance += 2 * e * (means[k] ?? 0) * Math.expm1(shared);
    }
  });
  const sigma2 = Math.log1p(variance / mean ** 2);
  return { mean, sd: Math.sqrt(variance), mu: Math.log(mean) - sigma2 / 2, sigma: Math.sqrt(sigma2) };
}

/** P20, P50, P80 and P95 of a lognormal, whole minutes, in rising order. */
export function quantilesOf(d: Pick<Duration, 'mu' | 'sigma'>): {
  readonly p20Min: number;
  readonly p50Min: number;
  readonly p80Min: number;
  readonly p95Min: number;
} {
  const at = (p: number): number => Math.round(lognormalQuantile(p, d.mu, d.sigma));
  return { p20Min: at(0.2), p50Min: at(0.5), p80Min: at(0.8), p95Min: at(0.95) };
}
