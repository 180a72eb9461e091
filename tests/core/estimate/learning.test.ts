import { describe, expect, test } from 'vitest';
import { type Duration, meanMinutes, stageDuration, totalOf } from '#core/estimate/rules/hours.ts';
import { learn, noHistory } from '#core/estimate/rules/learning.ts';
import { lessonSize } from '#core/estimate/rules/lesson.ts';
import type { PastStage } from '#core/estimate/rules/past.ts';
import { jobAfterSpots } from '#core/estimate/rules/testSpot.ts';
import { normal, seeded } from '#core/shared/random.ts';
import { lognormalQuantile } from '#core/shared/statistics.ts';
import { backTest, rowsOf, share } from './backTest.ts';
import { madeJobs } from './generated.ts';

describe('what finished work teaches', () => {
  test('nothing: the model as it is, with a wide range', () => {
    const none = learn([]);
    expect(none).toEqual(noHistory());
    expect(none.shop.log).toBe(0);
    expect(learn([{ ...(rowsOf(madeJobs(1, 1), 0)[0] as PastStage), actualMin: 0 }])).toEqual(noHistory());
  });

  test('a little moves it a little, much moves it nearly all the way', () => {
    const slow = (n: number): PastStage[] =>
      Array.from({ length: n }, (_, i) => ({
        jobId: `j${i}`,
        kind: 'cut',
        technician: 'ostler',
        condition: 'moderate',
        estimatedMin: 100,
        actualMin: 130,
        ageDays: 1,
      }));
    const minutesAfter = (n: number): number => {
      const c = learn(slow(n));
      const unseen = { jobLog: 0, jobVariance: c.jobVariance, tried: new Map() };
      const job = { technician: 'ostler', condition: 'moderate', ...unseen };
      return Math.exp(stageDuration(100, 'cut', job, c).mu);
    };
    expect(minutesAfter(1)).toBeGreaterThan(103);
    expect(minutesAfter(1)).toBeLessThan(120);
    expect(minutesAfter(60)).toBeGreaterThan(126);
    expect(minutesAfter(60)).toBeLessThan(131);
  });

  test('finds who is quick, which stage runs long and how much cars differ', () => {
    const c = learn(rowsOf(madeJobs(1000, 3), 730));
    const log = (map: ReadonlyMap<string, { log: number }>, key: string): number => map.get(key)?.log ?? 0;
    expect(log(c.technician, 'ostler')).toBeLessThan(log(c.technician, 'brink') - 0.12);
    expect(log(c.kind, 'cut')).toBeGreaterThan(log(c.kind, 'protect') + 0.15);
    expect(log(c.condition, 'heavy')).toBeGreaterThan(log(c.condition, 'light') + 0.1);
    expect(Math.sqrt(c.jobVariance)).toBeGreaterThan(0.17); // made with 0.20
    expect(Math.sqrt(c.jobVariance)).toBeLessThan(0.23);
    // Student's t with 5 degrees of freedom, scale 0.18: deviation 0.18·√(5/3) = 0.232
    expect(Math.sqrt(c.stageVariance)).toBeGreaterThan(0.2);
    expect(Math.sqrt(c.stageVariance)).toBeLessThan(0.26);
  });

  test('a stopwatch left running overnight does not ruin the lesson', () => {
    const rows = rowsOf(madeJobs(200, 5), 730);
    const before = learn(rows);
    const after = learn([...rows, { ...(rows[0] as PastStage), actualMin: 5000 }]);
    expect(Math.abs(after.shop.log - before.shop.log)).toBeLessThan(0.02);
  });
});

test('a lesson takes in every stage at first, and later waits for a fiftieth more', () => {
  expect([0, 1, 60, 100].map(lessonSize)).toEqual([0, 1, 60, 100]);
  expect(lessonSize(101)).toBe(100); // 100 waits for 2 more
  expect(lessonSize(102)).toBe(102);
  for (const done of [333, 1000, 5000]) {
    expect(lessonSize(done)).toBeLessThanOrEqual(done);
    expect(lessonSize(done)).toBeGreaterThan(done * 0.97);
  }
});

describe('back-test on 2,000 jobs made by separate code (shared effect, heavy tail, drift)', () => {
  const held = backTest(2000, 20261125);
  test('80 % of jobs stay within their P80, three points either way, whichever past was made', () => {
    for (const jobs of [held, backTest(2000, 1), backTest(2000, 2)]) {
      expect(jobs).toHaveLength(2000);
      expect(share(jobs)).toBeGreaterThan(0.77);
      expect(share(jobs)).toBeLessThan(0.83);
    }
  });

  // Chance alone moves the share of some 500 jobs by 1.8 points.
  test('by paint condition too, four points either way', () => {
    for (const condition of ['light', 'moderate', 'heavy']) {
      const rows = held.filter((h) => h.condition === condition);
      expect(rows.length).toBeGreaterThan(300);
      expect(share(rows)).toBeGreaterThan(0.76);
      expect(share(rows)).toBeLessThan(0.84);
    }
  });

  test('stages taken as independent would promise too much', () => {
    const apart = held.filter((h) => h.apart).length / held.length;
    expect(apart).toBeLessThan(share(held) - 0.03);
  });
});

describe('the sum of stages', () => {
  const stages: Duration[] = [45, 32, 240, 210, 40].map((m) => ({
    mu: Math.log(m),
    sigma: Math.hypot(0.22, 0.25),
    shared: 0.22 ** 2,
  }));

  test('with the effect that the stages of a car share agrees with 200,000 seeded draws', () => {
    const random = seeded(7);
    const total = totalOf(stages);
    const p80 = lognormalQuantile(0.8, total.mu, total.sigma);
    const p95 = lognormalQuantile(0.95, total.mu, total.sigma);
    let within80 = 0;
    let within95 = 0;
    let sum = 0;
    const draws = 200_000;
    for (let i = 0; i < draws; i += 1) {
      const own = 0.22 * normal(random);
      const drawn = stages.reduce((a, d) => a + Math.exp(d.mu + own + 0.25 * normal(random)), 0);
      sum += drawn;
      if (drawn <= p80) within80 += 1;
      if (drawn <= p95) within95 += 1;
    }
    expect(Math.abs(sum / draws / total.mean - 1)).toBeLessThan(0.003);
    expect(Math.abs(within80 / draws - 0.8)).toBeLessThan(0.01);
    expect(Math.abs(within95 / draws - 0.95)).toBeLessThan(0.01);
  });

  test('the same stages taken as independent would hold only about 72 to 76 % of such draws in their P80', () => {
    const random = seeded(8);
    const apart = totalOf(stages.map((d) => ({ ...d, shared: 0 })));
    const p80 = lognormalQuantile(0.8, apart.mu, apart.sigma);
    let within = 0;
    for (let i = 0; i < 50_000; i += 1) {
      const own = 0.22 * normal(random);
      if (stages.reduce((a, d) => a + Math.exp(d.mu + own + 0.25 * normal(random)), 0) <= p80) within += 1;
    }
    expect(within / 50_000).toBeGreaterThan(0.68);
    expect(within / 50_000).toBeLessThan(0.77);
  });

  test('means add up whatever is shared', () => {
    expect(totalOf(stages).mean).toBeCloseTo(
      stages.reduce((a, d) => a + meanMinutes(d), 0),
      9,
    );
  });
});

describe('a test spot', () => {
  // Variances of the generated cars: what a job shares 0.04, a stage beyond that 0.06, of which half is the car's.
  const cars = { jobVariance: 0.04, stageVariance: 0.06 };
  const spot = { kind: 'cut' as const, actualS: 130, modelS: 100 };

  test('is believed nearly wholly for the stage it tried, and for the others as far as stages of a car go together', () => {
    const after = jobAfterSpots([spot], cars);
    // Cov(stage, spot) / Var(spot), by hand: the cut 0.04 + 0.03, any other 0.04, over 0.04 + 0.03 + 0.12² = 0.0844.
    expect(after.tried.get('cut')?.log).toBeCloseTo((0.07 / 0.0844) * Math.log(1.3), 9);
    expect(after.jobLog).toBeCloseTo((0.04 / 0.0844) * Math.log(1.3), 9);
    // What stays unknown: the variance less its covariance squared over that of the spot.
    expect(after.tried.get('cut')?.variance).toBeCloseTo(0.07 - 0.07 ** 2 / 0.0844, 9);
    expect(after.jobVariance).toBeCloseTo(0.04 - 0.04 ** 2 / 0.0844, 9);
    expect(after.tried.get('cut')?.shared).toBeCloseTo(0.04 - (0.07 * 0.04) / 0.0844, 9);
  });

  test('two that agree weigh more than one, none leaves things as they were', () => {
    expect(jobAfterSpots([spot, spot], cars).jobLog).toBeGreaterThan(jobAfterSpots([spot], cars).jobLog);
    expect(jobAfterSpots([], cars)).toEqual({ jobLog: 0, jobVariance: 0.04, tried: new Map() });
  });

  test('of the cut lengthens the cut more than the refining, and no range grows by it', () => {
    const c = { ...noHistory(), ...cars };
    const known = { technician: null, condition: 'moderate' };
    const before = { ...known, ...jobAfterSpots([], cars) };
    const after = { ...known, ...jobAfterSpots([spot], cars) };
    const longer = (kind: 'cut' | 'refine'): number =>
      stageDuration(100, kind, after, c).mu - stageDuration(100, kind, before, c).mu;
    expect(longer('cut')).toBeGreaterThan(1.5 * longer('refine'));
    for (const kind of ['cut', 'refine'] as const)
      expect(stageDuration(100, kind, after, c).sigma).toBeLessThan(
        stageDuration(100, kind, before, c).sigma,
      );
  });

  test('agrees with cars drawn at random: those whose spot ran about 1.3 times as long', () => {
    const random = seeded(11);
    const [logs, spots] = [{ cut: [] as number[], refine: [] as number[] }, Math.log(1.3)];
    for (let i = 0; i < 400_000; i += 1) {
      const job = 0.2 * normal(random);
      const paint = Math.sqrt(0.03) * normal(random);
      if (Math.abs(job + paint + 0.12 * normal(random) - spots) > 0.02) continue;
      logs.cut.push(job + paint + Math.sqrt(0.03) * normal(random));
      logs.refine.push(job + Math.sqrt(0.06) * normal(random));
    }
    const after = jobAfterSpots([spot], cars);
    const mean = (all: readonly number[]): number => all.reduce((a, b) => a + b, 0) / all.length;
    expect(logs.cut.length).toBeGreaterThan(5000);
    expect(Math.abs(mean(logs.cut) - (after.tried.get('cut')?.log ?? 0))).toBeLessThan(0.01);
    expect(Math.abs(mean(logs.refine) - after.jobLog)).toBeLessThan(0.01);
  });
});
