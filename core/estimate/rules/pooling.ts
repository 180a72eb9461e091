export type Pooled = {
  readonly mu: number;
  readonly error: number;
  /** Heterogeneity statistic, chi-square under equal means. */
  readonly q: number;
  /** Variance between the groups, 0 when q does not exceed its degrees of freedom. */
  readonly tau2: number;
};

/**
 * Mean of group means with unequal known variances, and the variance between groups by moments.
 * @source R. DerSimonian, N. Laird, Controlled Clinical Trials 7 (1986) 177–188
 */
export function poolMeans(means: readonly number[], variances: readonly number[]): Pooled {
  const flat = weighted(means, variances, 0);
  const q = means.reduce((sum, y, i) => sum + (y - flat.mu) ** 2 / (variances[i] ?? 1), 0);
  const w = variances.map((v) => 1 / v);
  const sum = w.reduce((a, b) => a + b, 0);
  const squares = w.reduce((a, b) => a + b * b, 0);
  const scale = sum - squares / sum;
  const tau2 = means.length < 2 || scale <= 0 ? 0 : Math.max(0, (q - (means.length - 1)) / scale);
  return { ...weighted(means, variances, tau2), q, tau2 };
}

function weighted(
  means: readonly number[],
  variances: readonly number[],
  tau2: number,
): { readonly mu: number; readonly error: number } {
  let top = 0;
  let sum = 0;
  means.forEach((y, i) => {
    const w = 1 / ((variances[i] ?? 1) + tau2);
    top += w * y;
    sum += w;
  });
  return { mu: sum > 0 ? top / sum : 0, error: sum > 0 ? Math.sqrt(1 / sum) : Number.POSITIVE_INFINITY };
}

/**
 * Share of a group's own mean that is believed, the rest is pulled towards the centre: 1 − c·v/(v + τ²), where
 * c = (k − 3)/(k − 1) corrects for τ² being estimated from k > 3 groups; else c = 1. For equal variances this is
 * the factor 1 − (k − 3)·v/S.
 * @source B. Efron, C. Morris, JASA 70 (1975) 311–319; C. Morris, JASA 78 (1983) 47–65
 */
export function believed(variance: number, tau2: number, groups: number): number {
  const correction = groups > 3 ? (groups - 3) / (groups - 1) : 1;
  return 1 - (correction * variance) / (variance + tau2);
}
