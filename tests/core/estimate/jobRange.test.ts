import { describe, expect, it } from 'vitest';
import { quantilesOf, totalOf } from '#core/estimate/rules/hours.ts';
import { jobRange, type StageHours } from '#core/estimate/rules/jobRange.ts';

/** Stages of 60 and 240 minutes at the middle, each with a spread of 0.35 in log minutes, 0.2 of it shared by the car. */
const SIGMA = 0.35;
const SHARED = 0.2 ** 2;
const stageOf = (median: number): StageHours => ({
  ...quantilesOf({ mu: Math.log(median), sigma: SIGMA }),
  ...{ mu: Math.log(median), sigma: SIGMA },
});
const stages = [stageOf(60), stageOf(240)];
const total = totalOf(stages.map((s) => ({ ...s, shared: SHARED })));

describe('the range of a whole job', () => {
  it('is that of its plan: between stages that know nothing of each other and stages that all go wrong together', () => {
    const range = jobRange(stages, total.sigma);
    expect(range).toEqual((({ p20Min, p50Min, p80Min }) => ({ p20Min, p50Min, p80Min }))(quantilesOf(total)));
    const together = jobRange(stages, null);
    const apart = jobRange(stages, totalOf(stages.map((s) => ({ ...s, shared: 0 }))).sigma);
    const width = (r: typeof range): number => r.p80Min - r.p20Min;
    expect(width(range)).toBeLessThan(width(together));
    expect(width(range)).toBeGreaterThan(width(apart));
    // Seeded Monte Carlo is the check of totalOf itself; here by hand: mean 300·e^(0.35²/2) = 318.95 min.
    expect(total.mean).toBeCloseTo(318.95, 1);
  });

  it('shrinks with a stage that was dropped', () => {
    const range = jobRange(stages.slice(0, 1), total.sigma);
    expect(range.p50Min).toBeLessThan(70);
    expect(range.p80Min).toBeLessThan(100);
  });

  it('adds the stages’ own ranges where nobody estimated the job', () => {
    expect(jobRange(stages, null)).toEqual({
      p20Min: (stages[0]?.p20Min ?? 0) + (stages[1]?.p20Min ?? 0),
      p50Min: 300,
      p80Min: (stages[0]?.p80Min ?? 0) + (stages[1]?.p80Min ?? 0),
    });
    expect(jobRange([], 0.3)).toEqual({ p20Min: 0, p50Min: 0, p80Min: 0 });
  });
});
