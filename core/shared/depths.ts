import type { Defect, Severity } from './vocabulary.ts';

/** How deep damage goes, 0.1 µm. */
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

/** False for what lies on the paint or is missing from it: no depth in the film says anything of it. */
export function hasDepth(defect: Defect): defect is Exclude<Defect, NotInFilm | 'contamination'> {
  return !isBeyondPolishing(defect) && defect !== 'contamination';
}

/** Depth class of a finding, 0.1 µm; 0..0 where depth says nothing. */
export function depthOf(defect: Defect, severity: Severity): DepthRange {
  return hasDepth(defect) ? DEPTHS[defect][severity] : { low: 0, high: 0 };
}
