import { type DepthRange, isBeyondPolishing } from '../../shared/depths.ts';
import type { VerdictReason } from '../../shared/views/paint.ts';
import type { Defect, Verdict } from '../../shared/vocabulary.ts';

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
