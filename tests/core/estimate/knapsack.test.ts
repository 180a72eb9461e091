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

/** [weight, profit] of every thing, and the most profit under a weight, as published. */
type Published = {
  readonly name: string;
  readonly ceiling: number;
  readonly best: number;
  readonly items: readonly (readonly [weight: number, profit: number])[];
};

/**
 * @source knapsack_01, J. Burkardt, Florida State University (people.sc.fsu.edu/~jburkardt/datasets/knapsack_01):
 * P01 from memory, P02, P06, P07 and P08 as several public programs quote them
 */
const PUBLISHED: readonly Published[] = [
  {
    ...{ name: 'P01', ceiling: 165, best: 309 },
    items: pairs([23, 31, 29, 44, 53, 38, 63, 85, 89, 82], [92, 57, 49, 68, 60, 43, 67, 84, 87, 72]),
  },
  {
    ...{ name: 'P02', ceiling: 26, best: 51 },
    items: pairs([12, 7, 11, 8, 9], [24, 13, 23, 15, 16]),
  },
  {
    ...{ name: 'P06', ceiling: 170, best: 1735 },
    items: pairs([41, 50, 49, 59, 55, 57, 60], [442, 525, 511, 593, 546, 564, 617]),
  },
  {
    ...{ name: 'P07', ceiling: 750, best: 1458 },
    items: pairs(
      [70, 73, 77, 80, 82, 87, 90, 94, 98, 106, 110, 113, 115, 118, 120],
      [135, 139, 149, 150, 156, 163, 173, 184, 192, 201, 210, 214, 221, 229, 240],
    ),
  },
  {
    ...{ name: 'P08', ceiling: 6_404_180, best: 13_549_094 },
    items: pairs(
      [
        382745, 799601, 909247, 729069, 467902, 44328, 34610, 698150, 823460, 903959, 853665, 551830, 610856,
        670702, 488960, 951111, 323046, 446298, 931161, 31385, 496951, 264724, 224916, 169684,
      ],
      [
        825594, 1677009, 1676628, 1523970, 943972, 97426, 69666, 1296457, 1679693, 1902996, 1844992, 1049289,
        1252836, 1319836, 953277, 2067538, 675367, 853655, 1826027, 65731, 901489, 577243, 466257, 369261,
      ],
    ),
  },
];

function pairs(weights: readonly number[], profits: readonly number[]): (readonly [number, number])[] {
  return weights.map((weight, i) => [weight, profits[i] ?? 0]);
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

  test.each(PUBLISHED)('solves $name as two levels per class: $best', ({ ceiling, items, best }) => {
    const classes = items.map(([weight, profit]) => [
      { cost: 0, gain: 0 },
      { cost: weight, gain: profit },
    ]);
    const found = bestChoice(classes, ceiling);
    expect(found?.gain).toBe(best);
    expect(found?.cost).toBeLessThanOrEqual(ceiling);
    // 2²⁴ combinations of the last set would take minutes; of the others every one is tried.
    if (items.length < 20) expect(exhaustive(classes, ceiling)).toBe(best);
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
