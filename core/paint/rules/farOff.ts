import { inQuadrature, meanOf, sdOf, Z975 } from '../../shared/statistics.ts';

/** How far apart the readings of one panel lie of themselves, 0.1 µm. @source common practice, no source */
const OF_ITSELF = 50;
/** Fewer other readings say nothing about where the panel lies. */
const ENOUGH = 3;
const SPREADS = 3;

/** A reading to ask about: `far` from the panel's others of the same time, or `above` all before though work was done. */
export type FarOff = { readonly tenthUm: number; readonly why: 'far' | 'above'; readonly against: number };

/**
 * The first new reading of a panel that is likely a slip, or meant for the other time, all in 0.1 µm; null = none.
 * `far`: more than three spreads off the mean (`against`) of at least three others, where the spread is theirs, but
 * never less than a panel's own with the gauge's. `above`: after work, above the highest before (`against`) by more
 * than the gauge can explain. `before` is empty for readings before work.
 */
export function farOff(
  fresh: readonly number[],
  same: readonly number[],
  before: readonly number[],
  gaugeUncertainty: number,
): FarOff | null {
  const highest = Math.max(...before);
  const explained = Z975 * Math.SQRT2 * gaugeUncertainty;
  for (const [i, tenthUm] of fresh.entries()) {
    if (before.length > 0 && tenthUm > highest + explained)
      return { tenthUm, why: 'above', against: highest };
    // Readings of another time typed together agree with each other: what was there before is asked first.
    const others = same.length >= ENOUGH ? same : [...same, ...fresh.filter((_, at) => at !== i)];
    if (others.length < ENOUGH) continue;
    const spread = Math.max(sdOf(others), inQuadrature(OF_ITSELF, gaugeUncertainty));
    const against = meanOf(others);
    if (Math.abs(tenthUm - against) > SPREADS * spread) return { tenthUm, why: 'far', against };
  }
  return null;
}
