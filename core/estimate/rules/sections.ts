import { refuse } from '../../shared/errors.ts';
import { PPM } from '../../shared/units.ts';

/** A section of a panel and how the machine goes over it. Lengths mm, times s, arm speed mm/s. */
export type SectionCase = {
  readonly alongMm: number;
  readonly acrossMm: number;
  readonly padDiameterMm: number;
  /** Share of a lane that the next one covers again, 0 ≤ … < 1,000,000 ppm. */
  readonly overlapPpm: number;
  readonly armSpeedMmS: number;
  /** One pass covers the section once, in lanes along it. */
  readonly passes: number;
  readonly applyS: number;
  readonly wipeS: number;
  readonly cleanS: number;
  /** Sections between two pad cleanings. */
  readonly cleanEvery: number;
};

export type SectionTime = { readonly lanes: number; readonly pathMm: number; readonly seconds: number };

/**
 * Time for one section: lanes n = max(1, ceil((b − d)/(d·(1 − ω))) + 1), path n·a + (b − d) when n > 1,
 * t = apply + passes·path/speed + wipe and look + cleaning/every.
 * A lower overlap never shortens a section that loses as much film: film goes with contact time, that with passes·path
 * (`contactSeconds`), and nothing else here hangs on the overlap; fewer lanes want more passes. At the *same* passes it
 * cannot hold, and is not meant to: 30 % instead of 50 % makes the worked case 5 lanes, 2,860 mm and 273.8 s, and
 * takes a quarter less off.
 * The pad never overhangs: a section narrower than the pad needs a smaller pad or hand work.
 * @example sectionTime({ alongMm: 500, acrossMm: 500, padDiameterMm: 140, overlapPpm: 500_000, armSpeedMmS: 50,
 *   passes: 4, applyS: 15, wipeS: 30, cleanS: 0, cleanEvery: 1 }) //=> { lanes: 7, pathMm: 3860, seconds: 353.8 }
 * @throws PAD_OVERHANGS when the section is narrower than the pad
 * @source geometry of parallel lanes
 */
export function sectionTime(c: SectionCase): SectionTime {
  const narrow = Math.min(c.alongMm, c.acrossMm);
  if (narrow < c.padDiameterMm)
    return refuse('PAD_OVERHANGS', { padMm: c.padDiameterMm, sectionMm: Math.floor(narrow) });
  const free = c.acrossMm - c.padDiameterMm;
  const lane = c.padDiameterMm * (1 - c.overlapPpm / PPM);
  // A quotient that is whole but for the last bit of a double must not open a further lane.
  const lanes = Math.max(1, Math.ceil(free / lane - 1e-9) + 1);
  const pathMm = lanes * c.alongMm + (lanes > 1 ? free : 0);
  const moving = (c.passes * pathMm) / c.armSpeedMmS;
  return { lanes, pathMm, seconds: c.applyS + moving + c.wipeS + c.cleanS / c.cleanEvery };
}

/** A panel cut into equal sections no larger than `maxAlong` × `maxAcross`, mm. */
export function cutUp(
  alongMm: number,
  acrossMm: number,
  maxAlong: number,
  maxAcross: number,
): { readonly count: number; readonly alongMm: number; readonly acrossMm: number } {
  const n = Math.max(1, Math.ceil(alongMm / maxAlong - 1e-9));
  const m = Math.max(1, Math.ceil(acrossMm / maxAcross - 1e-9));
  return { count: n * m, alongMm: alongMm / n, acrossMm: acrossMm / m };
}
