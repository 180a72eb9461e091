/** A fitted line or plane: coefficients, how uncertain they are alone and together, and the scatter about it. */
export type Fit = {
  readonly coefficients: readonly number[];
  readonly errors: readonly number[];
  /** Of each coefficient (row) with each (column), s²·(XᵀX)⁻¹: the squares of the errors stand on its diagonal. */
  readonly covariance: readonly (readonly number[])[];
  /** Residual standard deviation. */
  readonly s: number;
  readonly df: number;
};

/**
 * Ordinary least squares of `y` on the columns of `rows` (give a column of ones for an intercept).
 * Householder reflections: normal equations would lose half the digits on collinear columns.
 * Needs more rows than columns and independent columns; null otherwise.
 * @source A. S. Householder, J. ACM 5 (1958) 339–342, from memory; checked against NIST StRD and JCGM 100:2008 (GUM) H.3
 */
export function leastSquares(rows: readonly (readonly number[])[], y: readonly number[]): Fit | null {
  const columns = rows[0]?.length ?? 0;
  if (columns === 0 || rows.length <= columns || rows.length !== y.length) return null;
  const a = rows.map((row, i) => [...row, y[i] ?? 0]);
  for (let k = 0; k < columns; k += 1) if (!reflect(a, k, columns)) return null;
  const inverse = invertUpper(a, columns);
  const coefficients = inverse.map((row) =>
    row.reduce((sum, value, j) => sum + value * at(a, j, columns), 0),
  );
  const df = rows.length - columns;
  let residual = 0;
  for (let i = columns; i < a.length; i += 1) residual += at(a, i, columns) ** 2;
  const s = Math.sqrt(residual / df);
  const errors = inverse.map((row) => s * Math.hypot(...row));
  // (XᵀX)⁻¹ = R⁻¹·R⁻ᵀ, so the normal equations are never formed.
  const covariance = inverse.map((row) => inverse.map((other) => s * s * dot(row, other)));
  return { coefficients, errors, covariance, s, df };
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + value * (b[i] ?? 0), 0);
}

function at(a: readonly (readonly number[])[], i: number, j: number): number {
  return a[i]?.[j] ?? 0;
}

/** Turns column `k` into its upper triangular form; false when it is dependent on the ones before. */
function reflect(a: number[][], k: number, last: number): boolean {
  let size = 0;
  for (let i = k; i < a.length; i += 1) size = Math.hypot(size, at(a, i, k));
  if (size === 0) return false;
  const head = at(a, k, k);
  const alpha = head > 0 ? -size : size;
  const v = a.map((_, i) => (i < k ? 0 : i === k ? head - alpha : at(a, i, k)));
  const square = v.reduce((sum, x) => sum + x * x, 0);
  if (square === 0) return false;
  for (let j = k; j <= last; j += 1) {
    let along = 0;
    for (let i = k; i < a.length; i += 1) along += (v[i] ?? 0) * at(a, i, j);
    const scale = (2 * along) / square;
    for (let i = k; i < a.length; i += 1) {
      const row = a[i];
      if (row) row[j] = at(a, i, j) - scale * (v[i] ?? 0);
    }
  }
  return true;
}

function invertUpper(a: readonly (readonly number[])[], n: number): number[][] {
  const inverse = Array.from({ length: n }, () => Array.from({ length: n }, () => 0));
  for (let j = n - 1; j >= 0; j -= 1) {
    for (let i = j; i >= 0; i -= 1) {
      let sum = i === j ? 1 : 0;
      for (let k = i + 1; k <= j; k += 1) sum -= at(a, i, k) * at(inverse, k, j);
      const row = inverse[i];
      if (row) row[j] = sum / at(a, i, i);
    }
  }
  return inverse;
}

/** Slope through the origin with its standard error; null below two points. */
export function throughOrigin(
  x: readonly number[],
  y: readonly number[],
): { readonly slope: number; readonly error: number; readonly n: number } | null {
  const fit = leastSquares(
    x.map((value) => [value]),
    y,
  );
  return fit ? { slope: fit.coefficients[0] ?? 0, error: fit.errors[0] ?? 0, n: x.length } : null;
}
