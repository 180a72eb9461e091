import { describe, expect, it } from 'vitest';
import { bestChoice, type Option } from '#core/estimate/rules/knapsack.ts';
import { seeded } from '#core/shared/random.ts';
import { readInstance } from '#tests/bench/jobShop/read.ts';
import { solve } from '#tests/bench/jobShop/solve.ts';
import { stated } from '#tests/bench/jobShop/stated.ts';
import { generalAnswer, sum } from '#tests/helpers/generalSolver.ts';

/** One option of each class, within the ceiling, for the most gain. */
function choiceModel(classes: readonly (readonly Option[])[], ceiling: number): string {
  const all = classes.flatMap((options, i) => options.map((o, k) => ({ ...o, name: `x${i}_${k}`, of: i })));
  const one = classes.map((_, i) => `${sum(all.filter((o) => o.of === i).map((o) => [1, o.name]))} = 1`);
  return [
    `Maximize\n obj: ${sum(all.map((o) => [o.gain, o.name]))}`,
    `Subject To\n ${sum(all.map((o) => [o.cost, o.name]))} <= ${ceiling}`,
    ...one,
    `Binary\n${all.map((o) => o.name).join('\n')}\nEnd`,
  ].join('\n');
}

/** A car of 23 panels, each with up to five levels that cost minutes and gain points, neither in any order. */
function car(seed: number): readonly (readonly Option[])[] {
  const random = seeded(seed);
  const whole = (from: number, to: number): number => from + Math.floor(random() * (to - from + 1));
  return Array.from({ length: 23 }, () => [
    { cost: 0, gain: 0 },
    ...Array.from({ length: whole(1, 4) }, () => ({ cost: whole(5, 90), gain: whole(0, 400) })),
  ]);
}

/** @source HiGHS (highs.dev), a general-purpose solver from the registry, beside our own */
describe('held to a general-purpose solver', () => {
  it('finds the best levels of a whole car within a ceiling, as it does', async () => {
    for (let seed = 1; seed <= 25; seed += 1) {
      const classes = car(seed);
      const ceiling = 60 * seed;
      const found = await generalAnswer(choiceModel(classes, ceiling), 60);
      expect(found.proved).toBe(true);
      expect(bestChoice(classes, ceiling)?.gain).toBeCloseTo(found.value ?? -1, 3);
    }
  });

  it('finds the shortest plan of small shops whose machines can be chosen, as it does', async () => {
    for (let seed = 1; seed <= 6; seed += 1) {
      const random = seeded(100 + seed);
      const jobs = Array.from({ length: 3 }, () =>
        Array.from({ length: 3 }, () => {
          const machines = [0, 1, 2].filter(() => random() < 0.6);
          return (machines.length > 0 ? machines : [0]).map((machine) => ({
            machine,
            time: 1 + Math.floor(random() * 9),
          }));
        }),
      );
      const instance = { machines: 3, jobs };
      const found = await generalAnswer(stated(instance), 60);
      const own = solve(instance, { seed: 1, iterations: 20_000, nodes: 2000 });
      expect([own.proved, found.proved]).toEqual([true, true]);
      expect(found.value).toBeCloseTo(own.makespan, 3);
    }
  });
});

describe('the statement of a shop', () => {
  it('has the least makespan of the two jobs that cross, worked out by hand', async () => {
    // Job 1: machine 0 for 3, then 1 for 2; job 2: machine 1 for 2, then 0 for 4: machine 0 is busy for 7.
    const instance = readInstance('2 2\n0 3 1 2\n1 2 0 4');
    expect((await generalAnswer(stated(instance), 60)).value).toBeCloseTo(7, 3);
  });
});
