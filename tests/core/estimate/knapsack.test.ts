import { describe, expect, test } from 'vitest';
import { bestChoice, increments, type Option } from '#core/estimate/rules/knapsack.ts';
import { normal, seeded } from '#core/shared/random.ts';

/** Every combination, in code that shares nothing with the solver. */
function exhaustive(classes: readonly (readonly Option[])[], ceiling: number): number | null {
  let best: number | null = null;
  const walk = (i: number, cost: number, gain: number): void => {
    if (cost > ceiling) return;
    const options = classes[i];
    if (!options) {
      best = Math.max(best ?? -1, gain);
      return;
    }
    for (const o of options) walk(i + 1, cost + o.cost, gain + o.gain);
  };
  walk(0, 0, 0);
  return best;
}

describe('the best choice within a ceiling', () => {
  test('equals exhaustive search on 500 random cases', () => {
    const random = seeded(20261125);
    const whole = (most: number): number => Math.floor(random() * most);
    for (let run = 0; run < 500; run += 1) {
      const classes = Array.from({ length: 1 + whole(6) }, () =>
        Array.from({ length: 1 + whole(5) }, () => ({ cost: whole(60), gain: whole(100) })),
      );
      const ceiling = whole(220);
      const found = bestChoice(classes, ceiling);
      expect(found?.gain ?? null).toBe(exhaustive(classes, ceiling));
      if (!found) continue;
      const cost = found.picks.reduce((sum, p, i) => sum + (classes[i]?.[p]?.cost ?? 0), 0);
      expect(cost).toBe(found.cost);
      expect(cost).toBeLessThanOrEqual(ceiling);
    }
  });

  test('solves a published 0/1 set as two levels per class', () => {
    // P01 of J. Burkardt's knapsack_01 collection: capacity 165, optimum 309, from memory; optimum recomputed
    // exhaustively here.
    const weights = [23, 31, 29, 44, 53, 38, 63, 85, 89, 82];
    const profits = [92, 57, 49, 68, 60, 43, 67, 84, 87, 72];
    const classes = weights.map((w, i) => [
      { cost: 0, gain: 0 },
      { cost: w, gain: profits[i] ?? 0 },
    ]);
    expect(exhaustive(classes, 165)).toBe(309);
    expect(bestChoice(classes, 165)?.gain).toBe(309);
    expect(bestChoice(classes, 165)?.picks).toEqual([1, 1, 1, 1, 0, 1, 0, 0, 0, 0]);
  });

  test('never gives less for more budget, on 23 panels with five levels', () => {
    const random = seeded(7);
    const classes = Array.from({ length: 23 }, () => {
      let cost = 0;
      let gain = 0;
      return Array.from({ length: 5 }, (_, i) => {
        if (i > 0) {
          cost += 5 + Math.abs(normal(random)) * 12;
          gain += Math.round(random() * 5000);
        }
        return { cost, gain };
      });
    });
    let before = -1;
    for (let ceiling = 0; ceiling < 1500; ceiling += 25) {
      const gain = bestChoice(classes, ceiling)?.gain ?? -1;
      expect(gain).toBeGreaterThanOrEqual(before);
      before = gain;
    }
  });

  test('says null when even the cheapest levels exceed the ceiling', () => {
    expect(bestChoice([[{ cost: 5, gain: 1 }], [{ cost: 6, gain: 9 }]], 10)).toBeNull();
  });

  test('every prefix of the stair is the best choice at its own cost', () => {
    const classes = [
      [
        { cost: 0, gain: 0 },
        { cost: 10, gain: 50 },
        { cost: 25, gain: 60 },
      ],
      [
        { cost: 0, gain: 0 },
        { cost: 8, gain: 12 },
        { cost: 20, gain: 70 },
      ],
    ];
    let cost = 0;
    let gain = 0;
    const steps = increments(classes);
    expect(steps.map((s) => [s.of, s.to])).toEqual([
      [0, 1],
      [1, 2],
      [0, 2],
    ]);
    for (const step of steps) {
      cost += step.cost;
      gain += step.gain;
      expect(exhaustive(classes, cost)).toBe(gain);
    }
  });
});
