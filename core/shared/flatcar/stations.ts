import type { Point } from './path.ts';

/** Where a body's parts begin and end along its length, and how high and wide it is there; units of 5 mm. */
export type Stations = {
  readonly kind: 'coupe' | 'hatch' | 'van' | 'pickup';
  /** How far the front door hinge and screen move back from the saloon's. */
  readonly front: number;
  /** Rear wheel centre, wheel radius, lower edge of the doors. */
  readonly rearWheel: number;
  readonly wheel: number;
  readonly doorFoot: number;
  /** End of the roof, of the rear glass, of the tail. */
  readonly roofEnd: number;
  readonly glassEnd: number;
  readonly tail: number;
  /** Rear edges of the front and of the rear door. */
  readonly doorEnd: number;
  readonly rearDoorEnd?: number;
  /** Where the side glass meets the shoulder at the rear. */
  readonly waist: number;
  /** Half-width of the roof against the saloon's. */
  readonly roofWider: number;
  readonly rails: boolean;
};

/** The stations with everything that follows from them. */
export type Frame = Stations & {
  readonly frontWheel: number;
  readonly wheelY: number;
  /** Arch radius of wings and quarters, and of the rear door's cut-out. */
  readonly arch: number;
  readonly doorArch: number;
  readonly roofStart: number;
  readonly doorTwoEnd: number;
  readonly doorHeight: number;
  /** The quarter's front edge at the shoulder. */
  readonly quarterStart: number;
  /** Where the wheel arch meets the bumper, the quarter's foot, and the rear door. */
  readonly archBack: Point;
  readonly archFront: Point;
  readonly archDoor: Point;
  readonly archHalf: number;
  readonly doorArchHalf: number;
  readonly moveFront: (x: number, y: number) => Point;
  readonly moveRear: (x: number, y: number) => Point;
  readonly moveQuarter: (x: number, y: number) => Point;
  readonly moveNose: (x: number, y: number) => Point;
};

const FRONT_WHEEL = 170;
const SALOON_REAR = 722;
const SALOON_TAIL = 872;
const SALOON_ARCH = 73;

/** Stretches the saloon's sides below the shoulder to another door height. */
function deeper(foot: number): (y: number) => number {
  const scale = (foot + 2 - 190) / 116;
  const move = (y: number): number => (y > 190 ? 190 + (y - 190) * scale : y < -190 ? -move(-y) : y);
  return move;
}

export function frameOf(s: Stations): Frame {
  const wheelY = s.doorFoot - 14;
  const arch = s.wheel + 13;
  const doorArch = s.wheel + 16;
  const toTail = s.tail - SALOON_TAIL;
  const toRear = s.rearWheel - SALOON_REAR + (arch - SALOON_ARCH);
  const down = deeper(s.doorFoot);
  const moveRear = (x: number, y: number): Point => {
    const along = x <= 796 ? toRear : x >= 863 ? toTail : toRear + ((toTail - toRear) * (x - 796)) / 67;
    return [x + along, down(y)];
  };
  const squeeze = ((toRear - toTail) / 67) * 4.5;
  const doorTwoEnd = s.rearDoorEnd ?? s.rearWheel - 11;
  return {
    ...s,
    frontWheel: FRONT_WHEEL,
    wheelY,
    arch,
    doorArch,
    roofStart: 410 + s.front,
    doorTwoEnd,
    doorHeight: s.doorFoot - 174,
    quarterStart: (s.kind === 'coupe' ? s.doorEnd : doorTwoEnd) + 5,
    archBack: [s.rearWheel + 0.917 * arch, wheelY - 0.4 * arch],
    archFront: [s.rearWheel - 0.43 * arch, wheelY - 0.903 * arch],
    archDoor: [s.rearWheel - 0.4575 * doorArch, wheelY - 0.889 * doorArch],
    archHalf: Math.sqrt(arch * arch - 169),
    doorArchHalf: Math.sqrt(doorArch * doorArch - 196),
    moveFront: (x, y) => [x <= 250 ? x : x < 290 ? x + (s.front * (x - 250)) / 40 : x + s.front, y],
    moveRear,
    // Keeps the gap to the bumper even where the tail is squeezed.
    moveQuarter: (x, y) => {
      const [p, q] = moveRear(x, y);
      return [p - squeeze * (y > 200 ? 1 : 0.4), q];
    },
    moveNose: (x, y) => [x > 90 && Math.abs(y) >= 190 ? x - (arch - SALOON_ARCH) : x, down(y)],
  };
}
