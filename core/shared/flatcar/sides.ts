import type { HandPart, PanelShape } from './drawing.ts';
import { mapPath, path } from './path.ts';
import { quarter, rearPillar } from './rear.ts';
import { saloonParts } from './saloon.ts';
import type { Frame } from './stations.ts';

/** The panels of the lower hand, each from the stations of its body. */
export function sidePanels(k: Frame): Partial<Record<HandPart, PanelShape>> {
  const doors = k.kind === 'coupe' ? {} : { rd: rearDoor(k) };
  return {
    fw: frontWing(k),
    fd: frontDoor(k),
    ...doors,
    rq: quarter(k),
    sl: sill(k),
    ap: moved('ap', (x, y) => [x + k.front, y + (y < 130 ? k.roofWider : 0)], k.front),
    cr: roofRail(k),
    cp: rearPillar(k),
    mi: moved('mi', (x, y) => [x + k.front, y], k.front),
  };
}

function moved(
  part: HandPart,
  move: (x: number, y: number) => readonly [number, number],
  along: number,
): PanelShape {
  const from = saloonParts.hand[part] ?? { d: '', at: [0, 0] as const };
  return { d: mapPath(from.d, move), at: [from.at[0] + along, from.at[1]] };
}

function frontWing(k: Frame): PanelShape {
  const { front: f, doorHeight: h, doorFoot: foot, arch } = k;
  const d = path(
    ...['M112 139 C172 145 250 149', 319 + f, 150, 'C', 326 + f, 155, 334 + f, 160, 342 + f, 164, 'L'],
    ...[339 + f, 174, 'C', 335 + f, 174 + 0.28 * h, 327 + f, 174 + 0.66 * h, 323 + f, foot - 1, 'L'],
    ...[k.frontWheel + k.archHalf, foot - 1, 'A', arch, arch, '0 0 0'],
    ...[k.frontWheel - 0.911 * arch, k.wheelY - 0.411 * arch],
    'C99 236 100 212 103 190 C112 174 115 156 112 139 Z',
  );
  return { d, at: [236, 192] };
}

function frontDoor(k: Frame): PanelShape {
  const { front: f, doorHeight: h, doorFoot: foot, doorEnd: end } = k;
  const d = path(
    ...[
      'M',
      346 + f,
      174,
      'L',
      end,
      174,
      'C',
      end + 2,
      174 + 0.29 * h,
      end + 1,
      174 + 0.65 * h,
      end - 1,
      foot,
    ],
    ...['L', 328 + f, foot, 'C', 332 + f, 174 + 0.68 * h, 341 + f, 174 + 0.32 * h, 346 + f, 174, 'Z'],
  );
  return { d, at: [(346 + f + end) / 2, 174 + h / 2] };
}

function rearDoor(k: Frame): PanelShape {
  const { doorEnd: a, doorTwoEnd: b, doorHeight: h, doorFoot: foot } = k;
  const top = k.kind === 'van' ? 142 : 174;
  const back = path(
    'L',
    a + 3.5,
    foot,
    'C',
    a + 5.5,
    174 + 0.65 * h,
    a + 6.5,
    174 + 0.29 * h,
    a + 5,
    top,
    'Z',
  );
  if (k.kind === 'pickup')
    return {
      d: path('M', a + 5, 174, 'L', b, 174, 'C', b + 1, 174 + 0.29 * h, b, 174 + 0.65 * h, b - 1, foot, back),
      at: [(a + 5 + b) / 2, 174 + h / 2],
    };
  const shoulder = k.kind === 'van' ? [b, 176] : [b - 3, 196];
  const d = path(
    ...['M', a + 5, top, 'L', b, top, 'C', ...shoulder, k.rearWheel - 22, 208, ...k.archDoor],
    ...['A', k.doorArch, k.doorArch, '0 0 0', k.rearWheel - k.doorArchHalf, foot, back],
  );
  return { d, at: [(a + 5 + b) / 2 - 12, 174 + h * 0.43] };
}

function sill(k: Frame): PanelShape {
  const { doorFoot: y, rearWheel: x } = k;
  const d = path(
    ...['M246', y + 5, 'L', x - 76, y + 5, 'C', x - 74, y + 13, x - 71, y + 19, x - 66, y + 26],
    ...['L236', y + 26, 'C241', y + 19, 244, y + 13, 246, y + 5, 'Z'],
  );
  return { d, at: [(246 + x - 76) / 2, y + 16] };
}

function roofRail(k: Frame): PanelShape {
  const { roofStart: a, roofEnd: r, roofWider: w } = k;
  const d = path(
    ...['M', a, 115 + w, 'C', a + 80, 122.5 + w, r - 72, 121.5 + w, r - 2, 111 + w, 'L', r + 8, 122 + w],
    ...['C', r - 62, 133 + w * 0.5, a + 82, 135.5 + w * 0.5, a + 16, 128.5 + w * 0.5, 'Z'],
  );
  return { d, at: [(a + r) / 2, 126] };
}
