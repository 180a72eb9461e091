import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { totalOf } from '#core/estimate/rules/hours.ts';
import { believed, poolMeans } from '#core/estimate/rules/pooling.ts';
import { type Fit, leastSquares, throughOrigin } from '#core/shared/leastSquares.ts';
import { normal, seeded } from '#core/shared/random.ts';
import {
  effectiveDf,
  inQuadrature,
  lognormalQuantile,
  meanOf,
  normalCdf,
  normalQuantile,
  sdOf,
  studentCdf,
  studentQuantile,
} from '#core/shared/statistics.ts';

type Regression = { coefficients: number[]; errors: number[]; s: number; rows: number[][] };
const data = (name: string): unknown =>
  JSON.parse(readFileSync(new URL(`./data/${name}.json`, import.meta.url), 'utf8'));
const univariate = data('nist-univariate') as Record<string, { mean: number; sd: number; values: number[] }>;
const regression = data('nist-regression') as Record<string, Regression>;
const pooling = data('pooling') as {
  cars: [number, number][];
  efronMorris: [number, number, number, number][];
  bcg: [number, number, number, number][];
};

function near(actual: number, expected: number, relative: number): void {
  expect(Math.abs(actual - expected) / Math.max(Math.abs(expected), 1e-300)).toBeLessThanOrEqual(relative);
}

describe('NIST StRD univariate sets (itl.nist.gov/div898/strd, certified values)', () => {
  test.each(Object.keys(univariate))('%s: mean and standard deviation', (name) => {
    const set = univariate[name];
    if (!set) throw new Error(name);
    near(meanOf(set.values), set.mean, 1e-14);
    // NumAcc3 and 4 are tenths that doubles cannot hold: near 10,000,000 the input itself is only good to 2e-9 of 0.1.
    near(sdOf(set.values), set.sd, /NumAcc[34]/.test(name) ? 2e-8 : 1e-12);
  });
});

describe('NIST StRD linear regression (certified values)', () => {
  /** Columns of the model: a constant unless the set has none, then the predictors or the powers of one. */
  function columnsOf(name: string, row: readonly number[]): number[] {
    const [, x = 0] = row;
    if (name.startsWith('NoInt')) return [x];
    return name === 'Pontius' ? [1, x, x * x] : [1, ...row.slice(1)];
  }
  test.each([
    ['Norris', 1e-12],
    ['NoInt1', 1e-12],
    ['NoInt2', 1e-12],
    ['Pontius', 1e-9],
    ['Longley', 1e-9],
  ] as const)('%s: coefficients, their errors and the residual deviation within %s', (name, tolerance) => {
    const set = regression[name];
    if (!set) throw new Error(name);
    const fit = leastSquares(
      set.rows.map((row) => columnsOf(name, row)),
      set.rows.map((r) => r[0] ?? 0),
    );
    if (!fit) throw new Error('no fit');
    set.coefficients.forEach((c, i) => {
      near(fit.coefficients[i] ?? 0, c, tolerance);
      near(fit.errors[i] ?? 0, set.errors[i] ?? 0, tolerance);
    });
    near(fit.s, set.s, tolerance);
  });

  test('a line through the origin gives the same slope and error as NoInt1', () => {
    const rows = regression['NoInt1']?.rows ?? [];
    const fit = throughOrigin(
      rows.map((r) => r[1] ?? 0),
      rows.map((r) => r[0] ?? 0),
    );
    near(fit?.slope ?? 0, 2.07438016528926, 1e-12);
    near(fit?.error ?? 0, 0.0165289256198347, 1e-12);
  });

  test('dependent columns are said to have no fit', () => {
    expect(
      leastSquares(
        [
          [1, 1],
          [1, 1],
          [1, 1],
        ],
        [1, 2, 3],
      ),
    ).toBeNull();
  });
});

test('Ezekiel (1930) stopping distances: coefficients and the 95 % prediction at 15 mph', () => {
  const rows = pooling.cars.map(([speed]) => [1, speed]);
  const fit = leastSquares(
    rows,
    pooling.cars.map(([, dist]) => dist),
  );
  if (!fit) throw new Error('no fit');
  const [a = 0, b = 0] = fit.coefficients;
  near(a, -17.5790948905, 1e-11);
  near(b, 3.93240875912, 1e-11);
  near(fit.errors[0] ?? 0, 6.75844016938, 1e-11);
  near(fit.s, 15.3795867488, 1e-11);
  const speeds = pooling.cars.map(([s]) => s);
  const centre = meanOf(speeds);
  const sxx = speeds.reduce((sum, s) => sum + (s - centre) ** 2, 0);
  const t = studentQuantile(0.975, fit.df);
  const leverage = 1 / speeds.length + (15 - centre) ** 2 / sxx;
  near(a + 15 * b - t * fit.s * Math.sqrt(1 + leverage), 10.1748205052, 1e-10);
  near(a + 15 * b + t * fit.s * Math.sqrt(1 + leverage), 72.6392524875, 1e-10);
  near(a + 15 * b + t * fit.s * Math.sqrt(leverage), 45.7929208392, 1e-10);
  near(a + 15 * b - t * fit.s * Math.sqrt(leverage), 37.0211521535, 1e-10);
  near(a + 15 * b, 41.4070364964, 1e-10);
});

describe('quantiles', () => {
  test.each([
    [2, 4.30265273],
    [3, 3.182446305],
    [4, 2.776445105],
    [5, 2.570581836],
    [9, 2.262157163],
    [16, 2.119905299],
    [30, 2.042272456],
  ])('Student t .975 with %i degrees of freedom to the printed digits', (df, value) => {
    expect(Math.abs(studentQuantile(0.975, df) - value)).toBeLessThanOrEqual(5.1e-10);
    near(studentCdf(studentQuantile(0.975, df), df), 0.975, 1e-14);
  });

  test('Student t with 1 degree of freedom is the tangent', () => {
    near(studentQuantile(0.975, 1), Math.tan(Math.PI * 0.475), 1e-12);
    near(studentQuantile(0.1, 1), Math.tan(-Math.PI * 0.4), 1e-12);
  });

  test.each([
    [0.8, 0.8416212335729],
    [0.9, 1.2815515655446],
    [0.95, 1.6448536269515],
    [0.975, 1.9599639845401],
    [0.99, 2.3263478740408],
  ])('normal z at %f to the printed digits', (p, z) => {
    expect(Math.abs(normalQuantile(p) - z)).toBeLessThanOrEqual(1e-12);
    near(normalCdf(z), p, 1e-9);
  });

  test('lognormal (log 3, 0.4) at 10, 80 and 95 %', () => {
    near(lognormalQuantile(0.1, Math.log(3), 0.4), 1.79677189368, 1e-11);
    near(lognormalQuantile(0.8, Math.log(3), 0.4), 4.20074034384, 1e-11);
    near(lognormalQuantile(0.95, Math.log(3), 0.4), 5.79244069741, 1e-11);
  });
});

describe('partial pooling', () => {
  test('Efron & Morris, JASA 70 (1975): factor 0.209, errors 17.57 raw against 5.00 shrunk', () => {
    const x = pooling.efronMorris.map(([, , v]) => v);
    const pooled = poolMeans(
      x,
      x.map(() => 1),
    );
    const factor = believed(1, pooled.tau2, x.length);
    expect(factor).toBeCloseTo(0.209, 3);
    const truth = pooling.efronMorris.map(([, rest]) => Math.sqrt(45) * Math.asin(2 * rest - 1));
    const centre = meanOf(x);
    const raw = x.reduce((sum, v, i) => sum + (v - (truth[i] ?? 0)) ** 2, 0);
    const shrunk = x.reduce((sum, v, i) => sum + (centre + factor * (v - centre) - (truth[i] ?? 0)) ** 2, 0);
    expect(raw).toBeCloseTo(17.57, 2);
    expect(shrunk).toBeCloseTo(5.0, 2);
  });

  test('eight schools (Rubin 1981): pooled 7.6856 (4.0719), Q 4.7071, no variance between them', () => {
    const y = [28, 8, -3, 7, -1, 1, 18, 12];
    const se = [15, 10, 16, 11, 9, 11, 10, 18];
    const pooled = poolMeans(
      y,
      se.map((s) => s * s),
    );
    near(pooled.mu, 7.68561672, 1e-8);
    near(pooled.error, 4.07191916, 1e-8);
    near(pooled.q, 4.70707886, 1e-8);
    expect(pooled.tau2).toBe(0);
  });

  test('thirteen trials (Colditz 1994): Q 152.233, τ² 0.30876, μ −0.71412 (0.17874)', () => {
    const y = pooling.bcg.map(([a, b, c, d]) => Math.log(a / b / (c / d)));
    const v = pooling.bcg.map(([a, b, c, d]) => 1 / a - 1 / b + 1 / c - 1 / d);
    const pooled = poolMeans(y, v);
    near(pooled.q, 152.2330080824, 1e-11);
    near(pooled.tau2, 0.3087602629, 1e-9);
    near(pooled.mu, -0.7141172221, 1e-9);
    near(pooled.error, 0.1787420895, 1e-9);
  });
});

test('sum of three lognormals by moment matching (Fenton 1960), independent', () => {
  const one = (median: number, sigma: number) => ({ mu: Math.log(median), sigma, shared: 0 });
  const total = totalOf([one(2, 0.2), one(3.5, 0.35), one(1.25, 0.5)]);
  near(total.mean, 7.1779145988564, 1e-13);
  near(total.sd, 1.595053074878, 1e-12);
  near(total.mu, 1.9469089964143, 1e-13);
  near(total.sigma, 0.21954452221131, 1e-12);
  near(lognormalQuantile(0.8, total.mu, total.sigma), 8.42903529235, 1e-11);
  // This is the 90 % point: z = 1.28155 gives it, and the 95 % point is 10.0546.
  near(lognormalQuantile(0.9, total.mu, total.sigma), 9.28375986454, 1e-11);
  near(lognormalQuantile(0.95, total.mu, total.sigma), 10.054573444037, 1e-11);
});

test('the same sum drawn 400,000 times, seeded: mean, deviation, 80 and 90 % points agree', () => {
  const random = seeded(20261128);
  const parts = [
    [2, 0.2],
    [3.5, 0.35],
    [1.25, 0.5],
  ] as const;
  const drawn = Array.from({ length: 400_000 }, () =>
    parts.reduce((sum, [median, sigma]) => sum + median * Math.exp(sigma * normal(random)), 0),
  );
  const within = (most: number): number => drawn.filter((d) => d <= most).length / drawn.length;
  near(meanOf(drawn), 7.1779145988564, 0.002);
  near(sdOf(drawn), 1.595053074878, 0.01);
  // One lognormal in place of the sum has its mean and variance; its points lie within one draw in a hundred.
  expect(Math.abs(within(8.42903529235) - 0.8)).toBeLessThan(0.01);
  expect(Math.abs(within(9.28375986454) - 0.9)).toBeLessThan(0.01);
});

/** Of the two coefficients of a line. */
function correlation(fit: Fit | null): number {
  const [[v11 = 0, v12 = 0] = [], [, v22 = 0] = []] = fit?.covariance ?? [];
  return v12 / Math.sqrt(v11 * v22);
}

describe('GUM (JCGM 100:2008)', () => {
  test('H.1: combined uncertainty of an end gauge and its effective degrees of freedom', () => {
    const parts = [
      { u: 25, df: 18 },
      { u: 5.8, df: 24 },
      { u: 3.9, df: 5 },
      { u: 6.7, df: 8 },
      { u: 2.9, df: 50 },
      { u: 16.6, df: 2 },
    ];
    expect(inQuadrature(...parts.map((p) => p.u))).toBeCloseTo(31.6656, 4);
    expect(effectiveDf(parts)).toBeCloseTo(16.75, 2);
    expect(studentQuantile(0.995, 16)).toBeCloseTo(2.92, 2);
    // Printed 93 from the rounded 32 nm.
    expect(studentQuantile(0.995, 16) * inQuadrature(...parts.map((p) => p.u))).toBeCloseTo(92.5, 1);
    expect(2.92 * 32).toBeCloseTo(93.4, 1);
  });

  test('H.3: calibration line of a thermometer at 20 °C and at 30 °C', () => {
    const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
    const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
    const at20 = leastSquares(
      t.map((x) => [1, x - 20]),
      b,
    );
    expect(at20?.coefficients[0]).toBeCloseTo(-0.1712, 4);
    expect(at20?.errors[0]).toBeCloseTo(0.0029, 4);
    expect(at20?.coefficients[1]).toBeCloseTo(0.00218, 5);
    expect(at20?.errors[1]).toBeCloseTo(0.00067, 5);
    expect(at20?.s).toBeCloseTo(0.0035, 4);
    // H.3.3, r(y1, y2) = −0.930: the two coefficients at 20 °C go against each other.
    const r = correlation(at20);
    expect(r).toBeCloseTo(-0.93, 3);
    const at30 = leastSquares(
      t.map((x) => [1, x - 30]),
      b,
    );
    expect(at30?.coefficients[0]).toBeCloseTo(-0.1494, 4);
    expect(at30?.errors[0]).toBeCloseTo(0.0041, 4);
    // H.3.4: the same uncertainty at 30 °C from those at 20 °C, which without the correlation would be 0.0073.
    const [u1 = 0, u2 = 0] = at20?.errors ?? [];
    expect(Math.sqrt(u1 ** 2 + (10 * u2) ** 2 + 20 * u1 * u2 * r)).toBeCloseTo(at30?.errors[0] ?? 0, 12);
    // Far from all readings a slope that is wrong is wrong for the intercept too; in their middle it is not.
    const middle = t.reduce((sum, x) => sum + x, 0) / t.length;
    const centred = leastSquares(
      t.map((x) => [1, x - middle]),
      b,
    );
    expect(correlation(centred)).toBeCloseTo(0, 12);
  });
});
