import { type BodyStyle, PANELS, type PanelId } from './vocabulary.ts';

/** What the flat drawing of a body knows about it, as plain data. */
export type BodyFacts = {
  /** Reference size of the drawn vehicle, mm; a measured vehicle scales the areas. */
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Visible area of each panel in cm². A panel that the body lacks is left out. */
  readonly areasCm2: Readonly<Partial<Record<PanelId, number>>>;
};

type Size = readonly [lengthMm: number, widthMm: number, heightMm: number];
type Centre = readonly [fb: number, bo: number, ro: number, bl: number, rb: number];
/** One hand: wing, front door, rear door (0 = none), quarter, sill, A pillar, roof rail, rear pillar, mirror. */
type Hand = readonly [number, number, number, number, number, number, number, number, number];
const HAND = ['fw', 'fd', 'rd', 'rq', 'sl', 'ap', 'cr', 'cp', 'mi'] as const;

function facts(size: Size, centre: Centre, hand: Hand): BodyFacts {
  const [lengthMm, widthMm, heightMm] = size;
  const [fb, bo, ro, bl, rb] = centre;
  const areas: Partial<Record<PanelId, number>> = { fb, bo, ro, bl, rb };
  HAND.forEach((part, i) => {
    const cm2 = hand[i] ?? 0;
    if (cm2 === 0) return;
    areas[`l${part}`] = cm2;
    areas[`r${part}`] = cm2;
  });
  return { lengthMm, widthMm, heightMm, areasCm2: areas };
}

/**
 * Body styles with the areas of their flat drawings (1 drawing unit = 5 mm); a test holds the two together.
 * Glass, lamps, wheels and an open bed are not paint and have no area.
 * @source drawn for this program; sizes are round figures of such bodies, common practice, no source
 */
export const BODIES: Readonly<Record<BodyStyle, BodyFacts>> = {
  saloon: facts(
    [4700, 1820, 1450],
    [9530, 16613, 14599, 7274, 8925],
    [6373, 6816, 3956, 3704, 2144, 412, 735, 597, 149],
  ),
  hatch: facts(
    [4100, 1780, 1460],
    [9530, 15489, 16418, 3551, 7809],
    [5780, 6492, 3774, 2331, 1976, 412, 833, 531, 149],
  ),
  estate: facts(
    [4750, 1820, 1480],
    [9530, 16613, 21420, 3551, 9483],
    [6398, 6817, 4034, 3541, 2154, 412, 1103, 564, 149],
  ),
  coupe: facts(
    [4500, 1830, 1380],
    [9530, 18439, 11016, 5614, 8693],
    [7403, 7922, 0, 4920, 2060, 432, 634, 865, 149],
  ),
  tall: facts(
    [4600, 1860, 1680],
    [9846, 16332, 19768, 3920, 9682],
    [7368, 7946, 4776, 4005, 2102, 398, 893, 587, 149],
  ),
  van: facts(
    [5000, 1950, 1950],
    [9953, 13523, 27671, 6380, 11119],
    [5436, 6576, 9942, 6322, 2238, 373, 1000, 97, 149],
  ),
  pickup: facts(
    [5200, 1890, 1800],
    [9722, 16192, 12426, 5422, 9311],
    [7114, 6920, 4654, 10416, 2553, 403, 569, 305, 149],
  ),
};

/** The panels a body has, in the vocabulary's order. */
export function panelsOf(body: BodyStyle): readonly PanelId[] {
  return PANELS.filter((panel) => BODIES[body].areasCm2[panel] !== undefined);
}

/** Visible area of a panel in cm², 0 where the body lacks it. */
export function panelArea(body: BodyStyle, panel: PanelId): number {
  return BODIES[body].areasCm2[panel] ?? 0;
}
