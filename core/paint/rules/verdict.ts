import type { VerdictReason } from '../../shared/views/paint.ts';
import type { Defect, Severity, Verdict } from '../../shared/vocabulary.ts';

export type DepthRange = { readonly low: number; readonly high: number };

/**
 * Depth classes in 0.1 µm. A film gauge cannot measure a scratch: the class is a range, never a figure.
 * @source common practice, no source
 */
const DEPTHS: Readonly<Record<Exclude<Defect, NotInFilm | 'contamination'>, Record<Severity, DepthRange>>> = {
  holograms: by([1, 4], [3, 8], [6, 15]),
  swirls: by([2, 6], [5, 12], [10, 20]),
  waterSpots: by([3, 8], [6, 20], [15, 50]),
  oxidation: by([5, 15], [10, 25], [20, 50]),
  scratches: by([8, 15], [12, 25], [20, 40]),
  sandingMarks: by([10, 20], [15, 30], [25, 50]),
  etching: by([15, 30], [25, 60], [50, 150]),
  deepScratches: by([25, 45], [35, 70], [60, 150]),
};

type NotInFilm = 'runs' | 'stoneChips' | 'clearCoatFailure';

function by(light: Pair, moderate: Pair, heavy: Pair): Record<Severity, DepthRange> {
  const range = ([low, high]: Pair): DepthRange => ({ low, high });
  return { light: range(light), moderate: range(moderate), heavy: range(heavy) };
}
type Pair = readonly [number, number];

/** True for damage that no polishing brings back: paint that is missing, failed or run. */
export function isBeyondPolishing(defect: Defect): defect is NotInFilm {
  return defect === 'runs' || defect === 'stoneChips' || defect === 'clearCoatFailure';
}

/** Depth class of a finding, 0.1 µm; 0..0 for what lies on the paint or is missing from it. */
export function depthOf(defect: Defect, severity: Severity): DepthRange {
  if (isBeyondPolishing(defect) || defect === 'contamination') return { low: 0, high: 0 };
  return DEPTHS[defect][severity];
}

/**
 * What polishing does to one finding: its depth range against the planned removal and the safe limit (both
 * 0.1 µm; `safe` null = film not known). A range that straddles either "may soften".
 * `thin`: nothing is taken off this panel, whatever is found on it.
 * Etched pits deeper than the safe removal stay: they need wet sanding or a respray.
 */
export function verdictOf(
  defect: Defect,
  depth: DepthRange,
  planned: number,
  safe: number | null,
  thin = false,
): { readonly verdict: Verdict; readonly reason: VerdictReason } {
  if (defect === 'contamination') return { verdict: 'comesOut', reason: 'onSurface' };
  if (isBeyondPolishing(defect)) return { verdict: 'stays', reason: 'notInFilm' };
  if (thin) return { verdict: 'stays', reason: 'thin' };
  if (safe !== null && depth.low > safe) return { verdict: 'stays', reason: 'deeperThanSafe' };
  if (planned <= 0) return { verdict: 'stays', reason: 'noPlan' };
  if (depth.low > planned) return { verdict: 'stays', reason: 'deeperThanPlan' };
  if (safe !== null && depth.high > safe) return { verdict: 'maySoften', reason: 'straddlesSafe' };
  if (depth.high > planned) return { verdict: 'maySoften', reason: 'straddlesRemoval' };
  if (safe === null) return { verdict: 'maySoften', reason: 'filmUnknown' };
  return { verdict: 'comesOut', reason: 'withinRemoval' };
}
