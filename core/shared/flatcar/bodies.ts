import type { BodyStyle } from '../vocabulary.ts';
import { type BodyDrawing, bothHands } from './drawing.ts';
import { middleGlass, middlePanels, sideGlass } from './middle.ts';
import { mapPath, path } from './path.ts';
import { saloon } from './saloon.ts';
import { sidePanels } from './sides.ts';
import { type Frame, frameOf, type Stations } from './stations.ts';

function pairedCreases(k: Frame): readonly string[] {
  const { front: f, doorEnd: d, doorTwoEnd: b, roofStart: a, roofEnd: r, roofWider: w } = k;
  const out = [
    mapPath('M74 84 C150 98 230 104 296 104', k.moveFront),
    path('M112 206 C180 196 260 200', 330 + f, 210),
    path('M', 346 + f, 213, 'C', 420 + f, 218, d - 60, 219, d, 217),
    k.kind === 'coupe'
      ? path('M', d - 50, 196, 'L', d - 14, 195)
      : path('M', d - 46, 196, 'L', d - 10, 195, 'M', b - 47, 193, 'L', b - 15, 191),
    'M-4 92 C6 140 34 204 92 232',
    mapPath('M940 92 C937 138 924 180 897 216', k.moveRear),
  ];
  if (k.kind === 'hatch' || k.kind === 'pickup')
    out.push(path('M', d + 6, 217, 'C', d + 60, 215, b - 40, 210, b - 5, 200));
  if (k.kind === 'van') out.push(path('M', d + 10, 198, 'L', b - 8, 198));
  if (k.rails) out.push(path('M', a + 24, 98 + w, 'C', a + 100, 104 + w, r - 80, 104 + w, r - 14, 96 + w));
  return out;
}

function singleCreases(k: Frame): readonly string[] {
  const { tail: t, roofStart: a } = k;
  const out = [
    'M8 -74 C3 -36 3 36 8 74 C14 78 22 76 25 70 C28 34 28 -34 25 -70 C22 -76 14 -78 8 -74 Z',
    path('M', t + 44, -44, 'L', t + 59, -44, 'L', t + 59, 44, 'L', t + 44, 44, 'Z'),
  ];
  if (k.kind === 'van')
    out.push(
      path('M', a + 120, -92, 'L', a + 120, 92),
      path('M', a + 260, -92, 'L', a + 260, 92),
      path('M', k.glassEnd + 14, 0, 'L', t + 18, 0),
    );
  return out;
}

function draw(stations: Stations): BodyDrawing {
  const k = frameOf(stations);
  const high = Math.max(k.doorFoot + 30, k.wheelY + k.wheel) + 6;
  return bothHands({
    centre: middlePanels(k),
    hand: sidePanels(k),
    glass: middleGlass(k),
    glassPair: sideGlass(k),
    creases: singleCreases(k),
    creasePair: pairedCreases(k),
    wheels: [
      { x: k.frontWheel, y: k.wheelY, r: k.wheel },
      { x: k.rearWheel, y: k.wheelY, r: k.wheel },
    ],
    viewBox: [-40, -high, k.tail + 142, 2 * high],
  });
}

/** The flat drawing of every body style; panel ids are the same, so facts move between them unchanged. */
export const DRAWINGS: Readonly<Record<BodyStyle, BodyDrawing>> = {
  saloon,
  hatch: draw({
    ...{ kind: 'hatch', front: -16, rearWheel: 690, wheel: 60, doorFoot: 304, roofEnd: 668, glassEnd: 730 },
    ...{ tail: 792, doorEnd: 520, waist: 690, roofWider: 0, rails: false },
  }),
  estate: draw({
    ...{ kind: 'hatch', front: 0, rearWheel: 724, wheel: 60, doorFoot: 304, roofEnd: 772, glassEnd: 836 },
    ...{ tail: 898, doorEnd: 546, waist: 790, roofWider: 0, rails: true },
  }),
  coupe: draw({
    ...{ kind: 'coupe', front: 26, rearWheel: 706, wheel: 60, doorFoot: 304, roofEnd: 622, glassEnd: 744 },
    ...{ tail: 846, doorEnd: 606, waist: 704, roofWider: -4, rails: false },
  }),
  tall: draw({
    ...{ kind: 'hatch', front: -4, rearWheel: 714, wheel: 67, doorFoot: 330, roofEnd: 730, glassEnd: 800 },
    ...{ tail: 868, doorEnd: 536, waist: 752, roofWider: 3, rails: true },
  }),
  van: draw({
    ...{ kind: 'van', front: -44, rearWheel: 740, wheel: 62, doorFoot: 322, roofEnd: 806, glassEnd: 844 },
    ...{ tail: 952, doorEnd: 470, rearDoorEnd: 722, waist: 0, roofWider: 8, rails: false },
  }),
  pickup: draw({
    ...{ kind: 'pickup', front: -6, rearWheel: 800, wheel: 68, doorFoot: 328, roofEnd: 604, glassEnd: 640 },
    ...{ tail: 944, doorEnd: 510, rearDoorEnd: 636, waist: 0, roofWider: 2, rails: false },
  }),
};
