import type { Felt } from '../../shared/views/paint.ts';
import type { Material } from '../../shared/vocabulary.ts';

/** Amounts in base units (µl, mg, mm, pieces), unrounded: a share of a pad's life is a real cost. */
export type Amounts = ReadonlyMap<Material, number>;

export function amounts(entries: readonly (readonly [Material, number])[]): Map<Material, number> {
  const sum = new Map<Material, number>();
  for (const [material, amount] of entries) sum.set(material, (sum.get(material) ?? 0) + amount);
  return sum;
}

/**
 * About a quarter of a bar is worked with at once (a bar of some 200 g); a dropped piece is thrown away, so a piece
 * is the smallest amount. @source common practice, no source
 */
export const CLAY_PIECE_MG = 50_000;

/** cm² that one piece of clay does: a car or more when clean, no more than a bonnet when badly contaminated. */
const CLAY_REACH_CM2: Readonly<Record<Felt, number>> = {
  none: 160_000,
  light: 120_000,
  moderate: 45_000,
  heavy: 14_000,
};

/**
 * Pieces of clay for areas felt as they are; at least one where there is anything to clay. Whole pieces.
 * @example clayPieces([{ areaCm2: 16_600, felt: 'heavy' }]) //=> 2
 */
export function clayPieces(areas: readonly { readonly areaCm2: number; readonly felt: Felt }[]): number {
  const used = areas.reduce((sum, a) => sum + a.areaCm2 / CLAY_REACH_CM2[a.felt], 0);
  return used === 0 ? 0 : Math.max(1, Math.ceil(used - 1e-9));
}

/**
 * Liquid for machine work, µl: five drops load a pad for each section, a clean pad is primed with as much again, and
 * work with more passes than usual takes more loads. Additive over panels, so `sectionsPerPad` is a share.
 * @source five drops a pad: common practice, no source
 */
export function padLoadUl(
  sections: number,
  sectionsPerPad: number,
  loadsPerSection: number,
  drops: number,
  dropUl: number,
): number {
  return (sections * Math.max(1, loadsPerSection) + sections / sectionsPerPad) * drops * dropUl;
}

/** Amount per square metre of each simple stage, base units. @source common practice, no source */
export const PER_M2 = {
  shampooUl: 3000,
  ironUl: 40_000,
  tarUl: 6000,
  clayLubeUl: 45_000,
  panelWipeUl: 15_000,
  sealantUl: 8000,
  coatingUl: 5000,
} as const;
