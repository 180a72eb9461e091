import { BODIES } from '../../shared/bodies.ts';
import { type BodyStyle, PANELS, type PanelId } from '../../shared/vocabulary.ts';

/** A panel of one vehicle, as the model of work sees it. */
export type PanelSize = {
  readonly panel: PanelId;
  readonly areaCm2: number;
  readonly alongMm: number;
  readonly acrossMm: number;
  /** How much it counts when somebody looks at the car, 0..1. */
  readonly weight: number;
};

type Part = 'fb' | 'bo' | 'ro' | 'bl' | 'rb' | 'fw' | 'fd' | 'rd' | 'rq' | 'sl' | 'ap' | 'cr' | 'cp' | 'mi';

/** Length ÷ width of a rectangle of the panel's area, and its visible weight. Common practice, no source. */
const SHAPES: Readonly<Record<Part, readonly [ratio: number, weight: number]>> = {
  fb: [3.4, 0.7],
  bo: [1.2, 1],
  ro: [1.3, 0.8],
  bl: [1.9, 1],
  rb: [3.2, 0.7],
  fw: [1.6, 1],
  fd: [1.05, 1],
  rd: [1.1, 1],
  rq: [1.6, 1],
  sl: [20, 0.4],
  ap: [4, 0.6],
  cr: [21, 0.5],
  cp: [3.3, 0.7],
  mi: [1.5, 0.6],
};

/** Parts that lie flat and grow with the vehicle's width; all others grow with its height. */
const FLAT: readonly string[] = ['bo', 'ro', 'bl'];

/** Measured size of a vehicle, mm; null = the body style's reference. */
export type VehicleSize = {
  readonly body: BodyStyle;
  readonly lengthMm: number | null;
  readonly widthMm: number | null;
  readonly heightMm: number | null;
};

/**
 * Panels of a vehicle with their areas: the body's reference areas, scaled by length × width where a panel lies flat
 * and by length × height where it stands. Measured areas (cm²) override.
 */
export function panelSizes(
  vehicle: VehicleSize,
  measured: Readonly<Partial<Record<PanelId, number>>> = {},
): PanelSize[] {
  const body = BODIES[vehicle.body];
  const length = (vehicle.lengthMm ?? body.lengthMm) / body.lengthMm;
  const width = (vehicle.widthMm ?? body.widthMm) / body.widthMm;
  const height = (vehicle.heightMm ?? body.heightMm) / body.heightMm;
  return PANELS.flatMap((panel) => {
    const drawn = body.areasCm2[panel];
    if (drawn === undefined) return [];
    const part = (panel.length === 3 ? panel.slice(1) : panel) as Part;
    const scaled = drawn * length * (FLAT.includes(part) ? width : height);
    const areaCm2 = Math.round(measured[panel] ?? scaled);
    const [ratio, weight] = SHAPES[part];
    const acrossMm = Math.sqrt((areaCm2 * 100) / ratio);
    return [{ panel, areaCm2, alongMm: acrossMm * ratio, acrossMm, weight }];
  });
}
