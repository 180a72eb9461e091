import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { EpochMin } from '#core/shared/units.ts';
import type { JobState } from '#core/shared/vocabulary.ts';
import { isAwaited, laneRows } from '../../renderer/features/bays/laneRows.ts';

const NOW = 1000;
const car = (state: JobState, from: number, to: number) => ({
  ...{ state, arriveMin: from as EpochMin, leaveMin: to as EpochMin },
});
const rows = (...cars: ReturnType<typeof car>[]) => laneRows(cars, NOW).map((r) => `${r.row} of ${r.rows}`);

describe('cars drawn in a place that holds one', () => {
  it('have the whole lane where they follow each other, or where what was before now met', () => {
    expect(rows(car('inWork', 900, 1100), car('booked', 1100, 1200))).toEqual(['0 of 1', '0 of 1']);
    expect(rows(car('collected', 700, 810), car('collected', 800, 900))).toEqual(['0 of 1', '0 of 1']);
  });

  it('lie one below the other where one has not come and another is worked on, what is there above', () => {
    expect(rows(car('booked', 900, 1100), car('inWork', 950, 1050))).toEqual(['1 of 2', '0 of 2']);
    // Also where the time it was planned for has passed.
    expect(rows(car('booked', 900, 950), car('inWork', 890, 1050))).toEqual(['1 of 2', '0 of 2']);
    expect(isAwaited(car('booked', 900, 1100), NOW)).toBe(true);
    expect(isAwaited(car('booked', 1001, 1100), NOW)).toBe(false);
    expect(isAwaited(car('inWork', 900, 1100), NOW)).toBe(false);
  });

  it('lie so too where work runs over into the time of the next', () => {
    expect(rows(car('inWork', 900, 1100), car('booked', 1050, 1200), car('booked', 1200, 1300))).toEqual([
      '0 of 2',
      '1 of 2',
      '0 of 1',
    ]);
  });

  it('never lie over each other from now on, and use no more rows than stand there at once', () => {
    const standing = fc
      .tuple(
        fc.constantFrom<JobState>('booked', 'inWork', 'ready'),
        fc.nat(400),
        fc.integer({ min: 1, max: 90 }),
      )
      .map(([state, from, length]) => car(state, 800 + from, 800 + from + length));
    fc.assert(
      fc.property(fc.array(standing, { maxLength: 9 }), (cars) => {
        const found = laneRows(cars, NOW);
        cars.forEach((a, i) => {
          for (let j = 0; j < i; j += 1) {
            const b = cars[j];
            if (!b || a.arriveMin >= b.leaveMin || b.arriveMin >= a.leaveMin) continue;
            if (Math.min(a.leaveMin, b.leaveMin) > NOW) expect(found[i]?.row).not.toBe(found[j]?.row);
          }
          expect(found[i]?.row).toBeLessThan(found[i]?.rows ?? 0);
        });
      }),
    );
  });
});
