import type { Brand } from './brand.ts';

/**
 * Storage units. Names carry the unit, types carry the meaning:
 * money in minor units, rates in parts per million, volume µl, mass mg, length mm, area cm², film 0.1 µm,
 * instants UTC epoch ms, plans in whole minutes since the epoch, recorded work in ms.
 */
export type Minor = Brand<number, 'Minor'>;
export type Ppm = Brand<number, 'Ppm'>;
export type FilmTenthUm = Brand<number, 'FilmTenthUm'>;
export type EpochMs = Brand<number, 'EpochMs'>;
/** Whole minutes since 1970-01-01T00:00Z: the plan's clock. */
export type EpochMin = Brand<number, 'EpochMin'>;
/** `YYYY-MM-DD` in the shop's zone. */
export type LocalDay = Brand<string, 'LocalDay'>;

export const MS_PER_MIN = 60_000;
export const PPM = 1_000_000;

/** Microlitres in one US fluid ounce, exactly: 231 cubic inches ÷ 128. @source NIST SP 811, appendix B */
export const UL_PER_FLOZ = 29_573.5295625;
/** Millimetres in one foot, exactly. @source international foot (1959) */
export const MM_PER_FOOT = 304.8;

/** 0.1 µm in one mil: 25.4 µm exactly. @source international inch, 25.4 mm (1959) */
export const TENTH_UM_PER_MIL = 254;

/** Rounds half away from zero, sign kept outside, so that −2.5 → −3 and 2.5 → 3. */
export function roundHalfAway(value: number): number {
  return Math.sign(value) * Math.round(Math.abs(value)) || 0;
}
