import { isBeyondPolishing } from '../../shared/depths.ts';
import type { Defect, Severity } from '../../shared/vocabulary.ts';

export type GainFinding = {
  readonly defect: Defect;
  readonly severity: Severity;
  readonly depth: { readonly low: number; readonly high: number };
};

const WEIGHT: Readonly<Record<Severity, number>> = { light: 1, moderate: 2, heavy: 3 };

/**
 * What taking `removal` (0.1 µm) off a panel brings: visible area × severity × the share of the depth removed, a
 * whole number. Damage that no polishing brings back, and what clay takes anyway, brings nothing.
 * More removal never brings less.
 */
export function gainOf(
  areaCm2: number,
  weight: number,
  findings: readonly GainFinding[],
  removal: number,
): number {
  const severity = findings.reduce((sum, f) => {
    if (isBeyondPolishing(f.defect) || f.defect === 'contamination') return sum;
    return sum + WEIGHT[f.severity] * Math.min(1, removal / Math.max(1, f.depth.high));
  }, 0);
  return Math.round(areaCm2 * weight * severity);
}

/** The worst damage on a panel that a machine works on; null when there is none. */
export function worstSeverity(
  findings: readonly Pick<GainFinding, 'defect' | 'severity'>[],
): Severity | null {
  let worst: Severity | null = null;
  for (const f of findings) {
    if (isBeyondPolishing(f.defect) || f.defect === 'contamination') continue;
    if (worst === null || WEIGHT[f.severity] > WEIGHT[worst]) worst = f.severity;
  }
  return worst;
}
