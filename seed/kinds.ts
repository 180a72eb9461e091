import type { Purpose } from '../core/shared/views/bookings.ts';
import type { Protection, StatedCondition, Wish } from '../core/shared/views/estimate.ts';
import type { Draw } from './draw.ts';

/** What somebody comes for. */
export type Kind = {
  readonly purpose: Exclude<Purpose, 'redo'>;
  readonly wish: Wish;
  readonly protection: Protection;
  readonly interior: boolean;
  /** Somebody looks at the paint before a price is said. */
  readonly inspected: boolean;
  /** Most they will pay with tax, minor units; null = no ceiling. */
  readonly ceilingMinor: number | null;
};

const plain = { protection: 'sealant', interior: false, inspected: false, ceilingMinor: null } as const;

/** The shop's mix. It averages about 7.5 hours a job: seven in ten are corrections, one in twelve is only a wash. */
const MIX: readonly (readonly [Kind, number])[] = [
  [{ ...plain, purpose: 'washOnly', wish: 'clean', protection: 'none' }, 8],
  [{ ...plain, purpose: 'protection', wish: 'protect', protection: 'sealant' }, 10],
  [{ ...plain, purpose: 'protection', wish: 'protect', protection: 'coating' }, 6],
  [{ ...plain, purpose: 'interior', wish: 'interior', protection: 'none', interior: true }, 7],
  [{ ...plain, purpose: 'correction', wish: 'oneStage', inspected: true }, 16],
  [{ ...plain, purpose: 'correction', wish: 'oneStage', inspected: true, interior: true }, 7],
  [{ ...plain, purpose: 'correction', wish: 'twoStage', inspected: true, protection: 'coating' }, 24],
  [{ ...plain, purpose: 'correction', wish: 'full', inspected: true, protection: 'coating' }, 22],
];

/** What is asked for at short notice: a wash, an interior. */
export const SMALL: readonly Kind[] = [MIX[0], MIX[3], MIX[0], MIX[1], MIX[0]].flatMap((m) => m?.[0] ?? []);

export function kindOf(draw: Draw): Kind {
  const kind: Kind = draw.weighted(MIX);
  if (kind.purpose !== 'correction' || !draw.chance(0.2)) return kind;
  return { ...kind, ceilingMinor: draw.pick([60_000, 80_000, 110_000, 150_000]) };
}

/** What people say of their own paint: mostly one class better than it is. */
export function toldCondition(real: 'good' | 'worn' | 'neglected', draw: Draw): StatedCondition {
  if (draw.chance(0.2)) return 'unknown';
  if (real === 'neglected') return draw.chance(0.6) ? 'worn' : 'neglected';
  if (real === 'worn') return draw.chance(0.4) ? 'good' : 'worn';
  return 'good';
}
