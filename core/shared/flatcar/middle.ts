import type { CentrePart, PanelShape } from './drawing.ts';
import { mapPath, path, straight, symmetric } from './path.ts';
import { saloonParts } from './saloon.ts';
import type { Frame } from './stations.ts';

/** Panels on the centre line. */
export function middlePanels(k: Frame): Record<CentrePart, PanelShape> {
  const { roofStart: a, roofEnd: r, roofWider: w } = k;
  const { bo, fb, rb } = saloonParts.centre;
  return {
    fb: { d: mapPath(fb.d, k.moveNose), at: [4, 0] },
    bo: { d: mapPath(bo.d, k.moveFront), at: [180 + k.front / 3, 0] },
    ro: {
      d: symmetric(
        [a - 12, 0],
        [
          [a - 12, 38, a - 8, 75 + w, a, 110 + w],
          [a + 80, 118 + w, r - 72, 117 + w, r, 106 + w],
          [r + 10, 70, r + 14, 36, r + 14, 0],
        ],
      ),
      at: [(a + r) / 2, 0],
    },
    bl: tailLid(k),
    rb: { d: mapPath(rb.d, k.moveRear), at: [k.tail + 60, 0] },
  };
}

function tailLid(k: Frame): PanelShape {
  const { glassEnd: g, tail: t } = k;
  switch (k.kind) {
    case 'coupe':
      return {
        d: symmetric(
          [g + 33, 0],
          [
            [g + 33, 46, g + 25, 92, g + 8, 130],
            [g + 56, 131, t - 32, 128, t, 120],
            [t + 12, 84, t + 18, 42, t + 18, 0],
          ],
        ),
        at: [(g + 33 + t) / 2, 0],
      };
    case 'pickup':
      return {
        d: symmetric(
          [t - 76, 0],
          [
            [t - 76, 42, t - 76, 84, t - 76, 126],
            straight([t - 76, 126], [t - 2, 122]),
            [t + 12, 84, t + 18, 42, t + 18, 0],
          ],
        ),
        at: [t - 29, 0],
      };
    case 'van':
    case 'hatch':
      return {
        d: symmetric(
          [g + 20, 0],
          [
            [g + 20, 42, g + 16, 84, g + 8, 126],
            straight([g + 8, 126], [t, 120]),
            [t + 12, 84, t + 18, 42, t + 18, 0],
          ],
        ),
        at: [(g + 20 + t + 18) / 2, 0],
      };
  }
}

/** Screens and, on a pick-up, the open bed, which is not paint. */
export function middleGlass(k: Frame): readonly string[] {
  const { roofEnd: r, glassEnd: g, roofWider: w, tail: t } = k;
  const [screen = ''] = saloonParts.glass;
  const front = mapPath(screen, (x, y) => [x + k.front, y + (Math.abs(y) === 110 ? Math.sign(y) * w : 0)]);
  const side = [r + 8, 106 + w] as const;
  switch (k.kind) {
    case 'coupe': {
      const back = [g + 16, 90, g + 24, 45, g + 24, 0] as const;
      return [
        front,
        symmetric([r + 22, 0], [[r + 22, 36, r + 18, 70, ...side], straight(side, [g, 126]), back]),
      ];
    }
    case 'pickup': {
      const rear = symmetric(
        [r + 20, 0],
        [
          [r + 20, 36, r + 16, 70, ...side],
          straight(side, [r + 24, 116]),
          [r + 32, 80, r + 34, 40, r + 34, 0],
        ],
      );
      const bed = symmetric(
        [r + 46, 0],
        [
          [r + 46, 43, r + 44, 86, r + 42, 129],
          straight([r + 42, 129], [t - 82, 127]),
          [t - 82, 84, t - 82, 42, t - 82, 0],
        ],
      );
      return [front, rear, bed];
    }
    case 'van':
    case 'hatch': {
      const back = [g + 8, 78, g + 12, 39, g + 12, 0] as const;
      return [
        front,
        symmetric([r + 22, 0], [[r + 22, 36, r + 18, 70, ...side], straight(side, [g, 117]), back]),
      ];
    }
  }
}

/** Side glass and lamps of one hand. */
export function sideGlass(k: Frame): readonly string[] {
  const { front: f, doorEnd: d } = k;
  const [, , headLamp = '', tailLamp = ''] = saloonParts.glassPair;
  const door = path(
    ...['M', 364 + f, 161, 'L', 430 + f, 133, 'C', 470 + f, 137, d - 36, 138, d - 5, 138, 'L', d - 5, 168],
    ...['L', 375 + f, 168, 'C', 370 + f, 167, 366 + f, 164, 364 + f, 161, 'Z'],
  );
  const along = k.tail - 872;
  return [door, ...rearSideGlass(k), headLamp, mapPath(tailLamp, (x, y) => [x + along, y])];
}

function rearSideGlass(k: Frame): readonly string[] {
  const { doorEnd: d, doorTwoEnd: b, roofEnd: r, roofWider: w, waist } = k;
  switch (k.kind) {
    case 'van':
      return [];
    case 'coupe': {
      const e = waist - 12;
      const top = path(
        'M',
        d + 4,
        138,
        'C',
        d + 8,
        137.5,
        r - 6,
        135,
        r + 5,
        131,
        'C',
        r + 24,
        141,
        e - 14,
        152,
        e,
        164,
      );
      return [path(top, 'C', e - 1, 167, e - 3, 168, e - 6, 168, 'L', d + 4, 168, 'Z')];
    }
    case 'pickup':
      return [path('M', d + 4, 138, 'L', r - 14, 131 + w * 0.5, 'L', b - 26, 168, 'L', d + 4, 168, 'Z')];
    case 'hatch': {
      const near = Math.min(b - 12, r - 8);
      const low = Math.min(b - 2, waist - 10);
      const one = path('M', d + 4, 138, 'L', near, 136.5 + w * 0.4, 'L', low, 168, 'L', d + 4, 168, 'Z');
      if (waist - b <= 30) return [one];
      const top = path('M', b - 5, 136 + w * 0.4, 'C', b + (r - b) * 0.4, 135.5, b + (r - b) * 0.75, 133);
      const back = path(
        r + 4,
        129 + w * 0.4,
        'C',
        r + 4,
        140,
        waist - 12,
        152,
        waist - 8,
        167,
        'L',
        b + 6,
        168,
        'Z',
      );
      return [one, `${top} ${back}`];
    }
  }
}
