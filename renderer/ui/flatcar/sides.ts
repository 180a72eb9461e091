import type { HandPart, PanelShape } from './drawing.ts';
import { mapPath, path } from './path.ts';
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

/** The quarter's rear edge: along the lamp and the bumper down to the arch. */
function tailEdge(k: Frame): string {
  return path(
    ...['C', ...k.moveRear(881, 147), ...k.moveRear(884, 174), ...k.moveQuarter(874, 198)],
    ...['C', ...k.moveQuarter(852, 226), ...k.moveQuarter(824, 246), ...k.archBack],
    ...['A', k.arch, k.arch, '0 0 0'],
  );
}

/** The quarter's front edge up from the sill, where no rear door takes the arch. */
function footEdge(k: Frame, top: number, inset: number): string {
  const { quarterStart: q, doorFoot: foot, doorHeight: h } = k;
  return path(
    ...[k.rearWheel - k.doorArchHalf + 3, foot, 'L', q - 1 - inset, foot],
    ...['C', q + 1 - inset, 174 + 0.65 * h, q + 2 - inset, 174 + 0.29 * h, q, top, 'Z'],
  );
}

function quarter(k: Frame): PanelShape {
  const { quarterStart: q, glassEnd: g, tail: t, waist: w } = k;
  const middle = (k.rearWheel + t) / 2 + 34;
  const arch = path(...k.archFront, 'C', q - 11, 210, q - 3, 197);
  switch (k.kind) {
    case 'coupe': {
      const top = path(
        'M',
        q,
        174,
        'C',
        q + 30,
        174,
        w + 4,
        173,
        w + 14,
        169,
        'C',
        w + 30,
        162,
        g,
        158,
        g + 21,
        154,
      );
      const deck = path(
        'C',
        g + 24,
        146,
        g + 20,
        140,
        g + 14,
        135,
        'C',
        g + 56,
        135,
        t - 34,
        132,
        t - 9,
        128,
      );
      return { d: path(top, deck, tailEdge(k), footEdge(k, 174, 0)), at: [(g + t) / 2, 178] };
    }
    case 'pickup':
      return {
        d: path('M', q, 134, 'L', t - 9, 130, tailEdge(k), footEdge(k, 134, 1)),
        at: [(q + t) / 2 + 60, 186],
      };
    case 'van':
      return {
        d: path('M', q, 142, 'L', g - 6, 138, 'L', t - 9, 132, tailEdge(k), arch, q, 142, 'Z'),
        at: [middle, 186],
      };
    case 'hatch': {
      const top = path('M', q, 174, 'L', w + 2, 173, 'C', w + 18, 168, g - 8, 160, g + 11, 151);
      const deck = path('C', g + 15, 144, g + 14, 137, g + 12, 132, 'L', t - 9, 128);
      return { d: path(top, deck, tailEdge(k), arch, q, 174, 'Z'), at: [middle, 186] };
    }
  }
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

function rearPillar(k: Frame): PanelShape {
  const { roofEnd: r, glassEnd: g, roofWider: w, waist, doorTwoEnd: b } = k;
  switch (k.kind) {
    case 'coupe': {
      const front = path('M', r + 4, 111 + w, 'L', g, 131, 'C', g + 12, 136, g + 19, 143, g + 16, 150);
      const back = path(
        'C',
        g,
        155,
        g - 14,
        161,
        waist,
        167,
        'C',
        waist - 14,
        151,
        r + 34,
        135,
        r + 15,
        123 + w,
        'Z',
      );
      return { d: `${front} ${back}`, at: [(r + g) / 2 + 14, 140] };
    }
    case 'pickup': {
      const front = path(
        'M',
        r + 3,
        112 + w,
        'L',
        r + 22,
        122,
        'L',
        b - 1,
        146,
        'L',
        b - 2,
        168,
        'L',
        b - 20,
        168,
      );
      return { d: path(front, 'L', r - 6, 126 + w * 0.5, 'L', r + 8, 123 + w, 'Z'), at: [r + 8, 146] };
    }
    case 'van': {
      const d = path(
        'M',
        r + 5,
        111 + w,
        'L',
        g - 3,
        123,
        'L',
        g + 1,
        134,
        'L',
        r - 6,
        136,
        'L',
        r + 14,
        123 + w,
        'Z',
      );
      return { d, at: [r + 16, 128] };
    }
    case 'hatch': {
      const front = path(
        'M',
        r + 4,
        111 + w,
        'L',
        g - 2,
        122 + w * 0.3,
        'C',
        g + 5,
        126,
        g + 9,
        135,
        g + 6,
        145,
      );
      const back = path('C', g - 8, 154, waist + 18, 161, waist, 167);
      const foot = path('C', waist - 2, 152, r + 8, 136, r + 14, 123 + w, 'Z');
      return { d: `${front} ${back} ${foot}`, at: [(r + g) / 2 + 8, 136] };
    }
  }
}
