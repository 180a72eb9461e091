import { MM_PER_FOOT, roundHalfAway, UL_PER_FLOZ } from './units.ts';
import type { BaseUnit } from './vocabulary.ts';

/** In which units a shop reads amounts. */
export type AmountStyle = { readonly volume: 'ml' | 'floz'; readonly length: 'm' | 'ft' };
export type ShownUnit = 'ml' | 'floz' | 'g' | 'm' | 'ft' | 'piece';

/** Base units in one shown unit. */
const PER_SHOWN: Readonly<Record<ShownUnit, number>> = {
  ml: 1000,
  floz: UL_PER_FLOZ,
  g: 1000,
  m: 1000,
  ft: MM_PER_FOOT,
  piece: 1,
};

/** The unit that a shop reads a base unit in: µl as ml or fl oz, mg as g, mm as m or ft, pieces as they are. */
export function shownUnit(unit: BaseUnit, style: AmountStyle): ShownUnit {
  switch (unit) {
    case 'ul':
      return style.volume;
    case 'mg':
      return 'g';
    case 'mm':
      return style.length;
    case 'piece':
      return 'piece';
  }
}

/**
 * An amount in base units as the shop reads it, unrounded.
 * @example toShown(620_000, 'ul', { volume: 'ml', length: 'm' }) //=> { value: 620, unit: 'ml' }
 */
export function toShown(
  amount: number,
  unit: BaseUnit,
  style: AmountStyle,
): { readonly value: number; readonly unit: ShownUnit } {
  const shown = shownUnit(unit, style);
  return { value: amount / PER_SHOWN[shown], unit: shown };
}

/** What somebody typed in a shown unit, as whole base units, half away from zero. */
export function fromShown(value: number, shown: ShownUnit): number {
  return roundHalfAway(value * PER_SHOWN[shown]);
}

/**
 * Base units in one of what somebody may write behind a figure. `oz` behind a volume is the fluid one.
 * @source exact by definition: foot 304.8 mm, pound 453.59237 g (1959), US gallon 231 cubic inches of 128 fl oz
 */
const PER_WRITTEN: Readonly<Record<BaseUnit, Readonly<Record<string, number>>>> = {
  ul: {
    ...{ ul: 1, ml: 1000, cl: 10_000, dl: 100_000, l: 1_000_000 },
    ...{
      oz: UL_PER_FLOZ,
      floz: UL_PER_FLOZ,
      pt: 16 * UL_PER_FLOZ,
      qt: 32 * UL_PER_FLOZ,
      gal: 128 * UL_PER_FLOZ,
    },
  },
  mg: { mg: 1, g: 1000, kg: 1_000_000, oz: 453_592.37 / 16, lb: 453_592.37, lbs: 453_592.37 },
  mm: { mm: 1, cm: 10, m: 1000, in: MM_PER_FOOT / 12, ft: MM_PER_FOOT, yd: 3 * MM_PER_FOOT },
  piece: { pc: 1, pcs: 1, piece: 1, pieces: 1 },
};

/**
 * What a figure was written in, as a factor to the unit the shop reads; null where the word is no unit of the kind.
 * @example writtenPer('l', 'ul', { volume: 'ml', length: 'm' }) //=> 1000
 */
export function writtenPer(word: string, unit: BaseUnit, style: AmountStyle): number | null {
  const per = PER_WRITTEN[unit];
  const key = word.toLowerCase().replace(/[\s.]/g, '');
  return Object.hasOwn(per, key) ? (per[key] ?? 0) / PER_SHOWN[shownUnit(unit, style)] : null;
}

/** The smallest step somebody would correct an amount by, in the shown unit. */
export function fineStep(shown: ShownUnit): number {
  switch (shown) {
    case 'ml':
    case 'g':
    case 'piece':
      return 1;
    case 'floz':
    case 'm':
      return 0.1;
    case 'ft':
      return 0.5;
  }
}
