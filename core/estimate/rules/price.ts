import { invariant } from '../../shared/errors.ts';
import type { Minor } from '../../shared/units.ts';
import { roundHalfAway } from '../../shared/units.ts';
import type { PriceRule } from '../../shared/views/estimate.ts';

/** Charged minutes of a stage and its dated rate per person hour, minor units. */
export type LabourLine = {
  readonly meanMin: number;
  readonly medianMin: number;
  readonly rateMinor: Minor;
};

/**
 * Labour: each stage's charged hours × its rate, summed and rounded once, half away from zero.
 * `mean` charges the mean of the spread (over many jobs the hours are paid for), `median` its middle.
 */
export function labourMinor(lines: readonly LabourLine[], rule: PriceRule): Minor {
  const exact = lines.reduce((sum, l) => sum + (chargedMinutes(l, rule) * l.rateMinor) / 60, 0);
  invariant(Number.isFinite(exact), 'labour must be finite');
  return roundHalfAway(exact) as Minor;
}

export function chargedMinutes(line: LabourLine, rule: PriceRule): number {
  return rule === 'mean' ? line.meanMin : line.medianMin;
}

/** Materials: amounts × price per base unit, minor units, rounded once. Unpriced materials cost nothing here. */
export function materialsMinor(
  amounts: Iterable<readonly [material: string, amount: number]>,
  priceOf: (material: string) => number,
): Minor {
  let exact = 0;
  for (const [material, amount] of amounts) exact += amount * priceOf(material);
  return roundHalfAway(exact) as Minor;
}
