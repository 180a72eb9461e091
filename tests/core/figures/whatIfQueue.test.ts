import { describe, expect, it } from 'vitest';
import { alwaysOpen } from '#core/bays/rules/calendar.ts';
import { runShop } from '#core/figures/rules/whatIfRun.ts';
import type { SimCar, SimRun, SimShop } from '#core/figures/rules/whatIfShop.ts';
import { type Random, seeded } from '#core/shared/random.ts';
import { studentQuantile } from '#core/shared/statistics.ts';
import { erlangC, meanWait, meanWaiting } from '../../reference/queueing.ts';
import { carOf, personOf, placesOf, shopOf, stageOf } from './whatIfShops.ts';

const SEEDS = Array.from({ length: 20 }, (_, i) => i + 1);
const SERVICE_MIN = 60;

/** Exponential by inversion. */
const exponential = (random: Random, mean: number): number => -mean * Math.log(1 - random());

/** Cars by a Poisson process at `a` erlangs; the first hundreds are warm-up and belong to no figure. */
function cars(seed: number, a: number, n: number, stage: (minutes: number) => SimCar['stages']): SimCar[] {
  const random = seeded(seed);
  let atMin = 0;
  return Array.from({ length: n }, () => {
    atMin += exponential(random, SERVICE_MIN / a);
    return carOf(stage(exponential(random, SERVICE_MIN)), atMin);
  });
}

const byHand = (minutes: number): SimCar['stages'] => [stageOf({ labourMin: minutes })];
const byItself = (minutes: number): SimCar['stages'] => [stageOf({ crew: 0, dwellMin: minutes })];

/** Ends long after the last car has left, so that every visit is whole. */
function emptied(shop: SimShop, list: readonly SimCar[]): SimRun {
  return runShop(shop, list, { fromMin: 0, toMin: 1e8 });
}

/** The middle and half width of a 99 % band for the mean of what the seeds came to. */
function band(values: readonly number[]): { readonly mean: number; readonly half: number } {
  const n = values.length;
  const mean = values.reduce((s, v) => s + v, 0) / n;
  const sd = Math.sqrt(values.reduce((s, v) => s + (v - mean) ** 2, 0) / (n - 1));
  return { mean, half: (studentQuantile(0.995, n - 1) * sd) / Math.sqrt(n) };
}

/** The truth lies in the band, and the band is narrow enough to say something: `tenth` of the truth at most. */
function expectWithin(values: readonly number[], truth: number, narrow: number): void {
  const { mean, half } = band(values);
  expect({
    within: Math.abs(mean - truth) <= half,
    narrow: half < narrow * truth,
    mean,
    half,
    truth,
  }).toEqual({
    within: true,
    narrow: true,
    mean,
    half,
    truth,
  });
}

const WARM_UP = 300;
function waitsOf(run: SimRun): readonly number[] {
  return run.visits.slice(WARM_UP).map((v) => v.begunMin - v.askedMin);
}

/** Published: tables of Erlang C, exact as fractions or to 12 digits. */
it.each([
  [2, 1, 1 / 3],
  [3, 2, 4 / 9],
  [4, 2.5, 0.319856704197],
  [5, 4, 0.554112554113],
  [10, 8, 0.409180150796],
  [14, 10, 0.174131933595],
])('Erlang C of %i servers at %d erlangs is %d', (c, a, chance) => {
  expect(erlangC(c, a)).toBeCloseTo(chance, 11);
});

it('M/M/1 at 24 and 30 an hour has L 4; M/M/3 at 6 and 3 an hour each has Lq 8/9 and Wq 4/27 h (Gross & Harris, from memory)', () => {
  expect(meanWaiting(1, 0.8) + 0.8).toBeCloseTo(4, 12);
  expect(meanWaiting(3, 2)).toBeCloseTo(8 / 9, 12);
  expect(meanWait(3, 2, 20) / 60).toBeCloseTo(4 / 27, 12);
});

describe('the runs of a shop as a waiting line, over 20 seeds', () => {
  const three = Array.from({ length: 3 }, () => personOf());
  const lines = [
    {
      name: 'three people, room for all',
      a: 2,
      stage: byHand,
      shop: shopOf({ people: three, bays: 200 }),
      c: 3,
    },
    {
      name: 'two bays that need nobody',
      a: 1,
      stage: byItself,
      shop: shopOf({ people: [], bays: 2, more: placesOf('yard', 200) }),
      c: 2,
    },
  ];
  const runs = lines.map((l) => SEEDS.map((seed) => emptied(l.shop, cars(seed, l.a, 3000, l.stage))));

  it.each(lines.map((l, i) => ({ ...l, i })))(
    '$name: who waits, and how long, is Erlang C and M/M/c',
    (l) => {
      const waits = (runs[l.i] ?? []).map(waitsOf);
      const chance = waits.map((w) => w.filter((m) => m > 1e-9).length / w.length);
      expectWithin(chance, erlangC(l.c, l.a), 0.08);
      const mean = waits.map((w) => w.reduce((s, m) => s + m, 0) / w.length);
      expectWithin(mean, meanWait(l.c, l.a, SERVICE_MIN), 0.15);
    },
  );

  it('has the cars of a stretch of time from λ·W of those who came (Little 1961)', () => {
    for (const run of runs.flat()) {
      const last = Math.max(...run.visits.map((v) => v.leftMin));
      const lambda = run.visits.length / last;
      const w = run.visits.reduce((s, v) => s + v.leftMin - v.arrivedMin, 0) / run.visits.length;
      expect(run.carMin / last).toBeCloseTo(lambda * w, 9);
    }
  });
});

it('counts the cars of a busy stretch by time as it would by cars, whoever is still there (Little over a stretch)', () => {
  const shop: SimShop = { ...shopOf({ people: [personOf(), personOf()], bays: 3 }), open: alwaysOpen() };
  for (const seed of SEEDS) {
    const [fromMin, toMin] = [2000, 9000];
    const run = runShop(shop, cars(seed, 1.9, 200, byHand), { fromMin, toMin });
    const byCars = run.visits.reduce(
      (s, v) => s + Math.max(0, Math.min(v.leftMin, toMin) - Math.max(v.arrivedMin, fromMin)),
      0,
    );
    expect(run.carMin).toBeCloseTo(byCars, 6);
    expect(run.carMin).toBeGreaterThan(0);
  }
});
