import type { PanelShape } from './drawing.ts';
import { path } from './path.ts';
import type { Frame } from './stations.ts';

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

/** The panel behind the doors: rear quarter, side of a van, side of a bed. */
export function quarter(k: Frame): PanelShape {
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

/** The pillar behind the last side glass. */
export function rearPillar(k: Frame): PanelShape {
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
