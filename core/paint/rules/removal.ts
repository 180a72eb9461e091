import { throughOrigin } from '../../shared/leastSquares.ts';

/** How a machine step meets a section: what contact time rests on. Lengths mm, speed mm/s. */
export type Contact = {
  readonly passes: number;
  readonly pathMm: number;
  readonly armSpeedMmS: number;
  readonly padDiameterMm: number;
  readonly alongMm: number;
  readonly acrossMm: number;
};

/**
 * Seconds that one point of a section is really under the pad: machine time × pad area / section area.
 * @example contactSeconds({ passes: 4, pathMm: 3860, armSpeedMmS: 50, padDiameterMm: 140, alongMm: 500, acrossMm: 500 }) //=> 19.01…
 * @source F. W. Preston, J. Soc. Glass Technol. 11 (1927) 214–256: removal goes with contact time at the point
 */
export function contactSeconds(c: Contact): number {
  const machine = (c.passes * c.pathMm) / c.armSpeedMmS;
  return (machine * Math.PI * c.padDiameterMm ** 2) / 4 / (c.alongMm * c.acrossMm);
}

/**
 * Film taken by a step: rate at the reference × contact time × speed and pressure against the reference. 0.1 µm.
 * `tenthUmPerSecond` is measured or default at the reference; 0 speed or pressure takes nothing.
 * @source Preston 1927: removal = k · pressure · relative speed · contact time
 */
export function removalTenthUm(
  tenthUmPerSecond: number,
  seconds: number,
  speedRatio: number,
  pressureRatio: number,
): number {
  return tenthUmPerSecond * seconds * speedRatio * pressureRatio;
}

/**
 * The shop's own removal rate of a step from its before/after readings: film against scaled contact seconds,
 * least squares through the origin, with its standard error. Null below two points: the default stays.
 */
export function refitRate(
  points: readonly { readonly seconds: number; readonly removedTenthUm: number }[],
): { readonly tenthUmPerSecond: number; readonly error: number; readonly n: number } | null {
  const fit = throughOrigin(
    points.map((p) => p.seconds),
    points.map((p) => p.removedTenthUm),
  );
  return fit ? { tenthUmPerSecond: fit.slope, error: fit.error, n: fit.n } : null;
}
