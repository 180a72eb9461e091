import { effectiveDf, inQuadrature, meanOf, sdOf, studentQuantile } from '../../shared/statistics.ts';
import type { Reading } from './film.ts';

export type Removed = {
  /** Mean before less mean after, 0.1 µm; null when either side has fewer than two readings. */
  readonly difference: number | null;
  readonly half: number | null;
  /** True when the 95 % interval lies wholly above 0. */
  readonly shown: boolean;
  readonly method: 'paired' | 'welch' | 'planned';
  /** What the life budget is charged: the larger of plan and what was shown. */
  readonly booked: number;
};

/**
 * How much film work took off one panel, from readings before and after, all in 0.1 µm.
 * Where at least two marked points were read both times the differences are paired, else Welch's interval is used.
 * The gauge's systematic error cancels in a difference; what is left of it is its smallest step.
 * An interval that covers 0 means "not shown", and the plan is booked: the budget never fails to shrink.
 * @source B. L. Welch, Biometrika 34 (1947) 28–35, from memory; step as a rectangular distribution, GUM 4.3.7
 */
export function removedFilm(
  before: readonly Reading[],
  after: readonly Reading[],
  planned: number,
  stepTenthUm: number,
): Removed {
  const pairs = paired(before, after);
  const compared =
    pairs.length >= 2 ? pairedInterval(pairs, stepTenthUm) : welchInterval(before, after, stepTenthUm);
  if (!compared) return { difference: null, half: null, shown: false, method: 'planned', booked: planned };
  const shown = compared.difference - compared.half > 0;
  return { ...compared, shown, booked: shown ? Math.max(planned, compared.difference) : planned };
}

type Compared = { readonly difference: number; readonly half: number; readonly method: 'paired' | 'welch' };

/** Mean at each marked point read both times, before less after. */
function paired(before: readonly Reading[], after: readonly Reading[]): number[] {
  const points = new Set(before.flatMap((r) => (r.point === null ? [] : [r.point])));
  return [...points].flatMap((point) => {
    const a = before.filter((r) => r.point === point).map((r) => r.tenthUm);
    const b = after.filter((r) => r.point === point).map((r) => r.tenthUm);
    return b.length > 0 ? [meanOf(a) - meanOf(b)] : [];
  });
}

function pairedInterval(differences: readonly number[], step: number): Compared {
  const n = differences.length;
  const spread = (studentQuantile(0.975, n - 1) * sdOf(differences)) / Math.sqrt(n);
  return { difference: meanOf(differences), half: inQuadrature(spread, stepHalf(step)), method: 'paired' };
}

function welchInterval(before: readonly Reading[], after: readonly Reading[], step: number): Compared | null {
  if (before.length < 2 || after.length < 2) return null;
  const a = before.map((r) => r.tenthUm);
  const b = after.map((r) => r.tenthUm);
  const va = sdOf(a) ** 2 / a.length;
  const vb = sdOf(b) ** 2 / b.length;
  const df = effectiveDf([
    { u: Math.sqrt(va), df: a.length - 1 },
    { u: Math.sqrt(vb), df: b.length - 1 },
  ]);
  const spread = va + vb === 0 ? 0 : studentQuantile(0.975, df) * Math.sqrt(va + vb);
  return { difference: meanOf(a) - meanOf(b), half: inQuadrature(spread, stepHalf(step)), method: 'welch' };
}

/** 95 % half width that rounding to the gauge's step leaves in a difference of two means. */
function stepHalf(step: number): number {
  return 1.96 * Math.SQRT2 * (step / Math.sqrt(12));
}
