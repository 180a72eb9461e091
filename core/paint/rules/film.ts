import { inQuadrature, meanOf, sdOf, studentQuantile, Z975 } from '../../shared/statistics.ts';

/** What the shop's gauge and film rules say; all in 0.1 µm. */
export type FilmRules = {
  readonly thinTenthUm: number;
  readonly refinishedTenthUm: number;
  readonly gaugeUncertaintyTenthUm: number;
  readonly readingsPerSpot: number;
};

/** One reading: at a marked point of the drawing, or free on the panel. */
export type Reading = { readonly tenthUm: number; readonly point: string | null };

export type FilmSummary = {
  readonly n: number;
  readonly mean: number;
  /** Sample standard deviation, 0 when n = 1. */
  readonly s: number;
  readonly min: number;
  readonly max: number;
  /** 95 % interval of the mean; null below the readings of a spot. */
  readonly interval: { readonly low: number; readonly high: number } | null;
  /** Lowest spot less its uncertainty; null below the readings of a spot. */
  readonly floor: number | null;
  readonly thin: boolean;
  readonly refinished: boolean;
};

/**
 * Half width of the 95 % interval of a mean of `n` readings with scatter `s`: Student's t, with the gauge's own
 * standard uncertainty in quadrature, so that readings that all agree still have a width. `n ≥ 2`.
 * @example meanHalfWidth(3, 3, 0) //=> 7.4524…
 * @source SSPC-PA 2 (spot), JCGM 100:2008 (GUM) 5.1.2
 */
export function meanHalfWidth(s: number, n: number, gaugeUncertainty: number): number {
  return inQuadrature((studentQuantile(0.975, n - 1) * s) / Math.sqrt(n), Z975 * gaugeUncertainty);
}

/**
 * What the readings of one panel say, all in 0.1 µm of the whole stack. Null without readings.
 * The limit of removal is `floor`, never the mean: a marked point with enough readings counts as a spot (its mean
 * less its half width); every other reading stands for itself, less the gauge's uncertainty.
 * @source ISO 2808, ASTM D7091 (method), SSPC-PA 2 (spot); flags: common practice, no source
 */
export function summarizeFilm(readings: readonly Reading[], rules: FilmRules): FilmSummary | null {
  if (readings.length === 0) return null;
  const values = readings.map((r) => r.tenthUm);
  const n = values.length;
  const mean = meanOf(values);
  const s = sdOf(values);
  const enough = n >= rules.readingsPerSpot && n >= 2;
  const half = enough ? meanHalfWidth(s, n, rules.gaugeUncertaintyTenthUm) : 0;
  const lowest = lowestSpot(readings, rules);
  return {
    n,
    mean,
    s,
    min: Math.min(...values),
    max: Math.max(...values),
    interval: enough ? { low: mean - half, high: mean + half } : null,
    floor: enough ? lowest : null,
    // A single low reading is a warning too: it asks for more readings.
    thin: lowest < rules.thinTenthUm,
    refinished: highestSpot(readings, rules) > rules.refinishedTenthUm,
  };
}

function lowestSpot(readings: readonly Reading[], rules: FilmRules): number {
  let lowest = Number.POSITIVE_INFINITY;
  for (const values of groups(readings)) {
    if (values.spot && values.all.length >= Math.max(2, rules.readingsPerSpot)) {
      const half = meanHalfWidth(sdOf(values.all), values.all.length, rules.gaugeUncertaintyTenthUm);
      lowest = Math.min(lowest, meanOf(values.all) - half);
    } else lowest = Math.min(lowest, Math.min(...values.all) - Z975 * rules.gaugeUncertaintyTenthUm);
  }
  return lowest;
}

function highestSpot(readings: readonly Reading[], rules: FilmRules): number {
  return Math.max(
    ...groups(readings).map((g) =>
      g.spot && g.all.length >= rules.readingsPerSpot ? meanOf(g.all) : Math.max(...g.all),
    ),
  );
}

function groups(readings: readonly Reading[]): readonly { spot: boolean; all: number[] }[] {
  const byPoint = new Map<string | null, number[]>();
  for (const r of readings) byPoint.set(r.point, [...(byPoint.get(r.point) ?? []), r.tenthUm]);
  return [...byPoint].map(([point, all]) => ({ spot: point !== null, all }));
}
