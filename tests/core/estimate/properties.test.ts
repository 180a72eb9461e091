import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { allowedLevel, levelsForWish, refusalOf } from '#core/estimate/rules/levels.ts';
import { panelWork } from '#core/estimate/rules/panelWork.ts';
import { planJob } from '#core/estimate/rules/plan.ts';
import { bestWithin } from '#core/estimate/rules/stair.ts';
import { depthOf } from '#core/shared/depths.ts';
import type { Wish } from '#core/shared/views/estimate.ts';
import { LEVELS, SEVERITIES, type Severity } from '#core/shared/vocabulary.ts';
import { caseOf, JOB, panelCases, RULES } from './helpers.ts';

const size = fc.record({
  panel: fc.constant('bo' as const),
  areaCm2: fc.integer({ min: 50, max: 30_000 }),
  alongMm: fc.integer({ min: 30, max: 2500 }),
  acrossMm: fc.integer({ min: 15, max: 2000 }),
  weight: fc.constant(1),
});
const level = fc.constantFrom(...LEVELS);
const harder = ['soft', 'medium', 'hard'] as const;

describe('for any panel', () => {
  test('a worse finding or a harder paint never shortens the work', () => {
    fc.assert(
      fc.property(size, level, fc.nat(1), fc.nat(1), (panel, l, s, h) => {
        const at = (ds: number, dh: number): number =>
          panelWork(panel, l, SEVERITIES[s + ds] ?? 'heavy', harder[h + dh] ?? 'hard', RULES).minutes;
        expect(at(1, 0)).toBeGreaterThanOrEqual(at(0, 0));
        expect(at(0, 1)).toBeGreaterThanOrEqual(at(0, 0));
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });

  test('a lower overlap never shortens the work that takes as much film: it needs more passes', () => {
    const overlap = fc.integer({ min: 0, max: 900_000 });
    fc.assert(
      fc.property(size, overlap, overlap, fc.integer({ min: 1, max: 6 }), (panel, a, b, refinePasses) => {
        const at = (overlapPpm: number, passes: number) =>
          panelWork(panel, 'oneStage', 'moderate', 'medium', { ...RULES, overlapPpm, refinePasses: passes });
        const high = at(Math.max(a, b), refinePasses);
        let passes = refinePasses;
        while (at(Math.min(a, b), passes).removalTenthUm < high.removalTenthUm - 1e-9) passes += 1;
        expect(at(Math.min(a, b), passes).minutes).toBeGreaterThanOrEqual(high.minutes - 1e-9);
      }),
      { seed: 8, numRuns: 300 },
    );
  });

  test('a higher level never takes less time or less film', () => {
    fc.assert(
      fc.property(size, fc.integer({ min: 0, max: 3 }), (panel, i) => {
        const low = panelWork(panel, LEVELS[i] ?? 'leave', 'moderate', 'medium', RULES);
        const high = panelWork(panel, LEVELS[i + 1] ?? 'threeStage', 'moderate', 'medium', RULES);
        expect(high.minutes).toBeGreaterThanOrEqual(low.minutes);
        expect(high.removalTenthUm).toBeGreaterThanOrEqual(low.removalTenthUm - 1e-9);
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  test('the level that is allowed is never refused, whatever the film', () => {
    const bonnet = panelCases('saloon', 'heavy').find((p) => p.size.panel === 'bo');
    if (!bonnet) throw new Error('a saloon has a bonnet');
    const film = fc.record({ safe: fc.option(fc.integer({ min: 0, max: 80 })), thin: fc.boolean() });
    fc.assert(
      fc.property(film, level, (f, wanted) => {
        const panel = { ...bonnet, ...f };
        const got = allowedLevel(panel, wanted, JOB, RULES);
        expect(refusalOf(panel, got, JOB, RULES)).toBeNull();
        expect(LEVELS.indexOf(got)).toBeLessThanOrEqual(
          Math.max(LEVELS.indexOf(wanted), LEVELS.indexOf('washOnly')),
        );
      }),
      { seed: 9, numRuns: 300 },
    );
  });
});

test('for any car: a worse finding on one panel, or a harder paint, never shortens the job of any wish', () => {
  const severity = fc.constantFrom(null, ...SEVERITIES);
  const found = fc.array(severity, { minLength: 23, maxLength: 23 });
  const wish = fc.constantFrom('oneStage' as const, 'twoStage' as const, 'full' as const);
  const minutes = (
    severities: readonly (Severity | null)[],
    hardness: (typeof harder)[number],
    as: Wish,
  ): number => {
    const panels = panelCases('saloon', null).map((p, i) => {
      const worst = severities[i] ?? null;
      const swirls =
        worst && ({ defect: 'swirls', severity: worst, depth: depthOf('swirls', worst) } as const);
      return { ...p, findings: swirls ? [swirls] : [] };
    });
    const c = caseOf({ panels, job: { ...JOB, wish: as, hardness } });
    return planJob(c, levelsForWish(panels, as, c.job, c.rules)).hours.meanMin;
  };
  const worse = (s: Severity | null): Severity => SEVERITIES[s ? SEVERITIES.indexOf(s) + 1 : 0] ?? 'heavy';
  fc.assert(
    fc.property(found, fc.nat(22), fc.nat(1), wish, (on, at, h, as) => {
      const before = minutes(on, harder[h] ?? 'soft', as);
      const worsened = on.map((s, i) => (i === at ? worse(s) : s));
      expect(minutes(worsened, harder[h] ?? 'soft', as)).toBeGreaterThanOrEqual(before - 1e-9);
      expect(minutes(on, harder[h + 1] ?? 'hard', as)).toBeGreaterThanOrEqual(before - 1e-9);
    }),
    { seed: 10, numRuns: 60 },
  );
});

test('for any film and any two ceilings: no plan goes past a limit, and the larger never gives less', () => {
  const films = fc.array(
    fc.record({ safe: fc.option(fc.integer({ min: 0, max: 60 })), thin: fc.boolean() }),
    {
      minLength: 23,
      maxLength: 23,
    },
  );
  const ceiling = fc.integer({ min: 100, max: 1800 });
  fc.assert(
    fc.property(films, ceiling, ceiling, (film, a, b) => {
      const panels = panelCases('saloon', 'heavy').map((p, i) => ({ ...p, ...film[i] }));
      const c = caseOf({ panels });
      const gain = (minutes: number): number => {
        const levels = bestWithin(c, 'hours', minutes, false);
        if (!levels) return -1;
        const plan = planJob(c, levels);
        plan.panels.forEach((p, i) => {
          const safe = panels[i]?.safe ?? null;
          if (safe !== null) expect(p.removalTenthUm).toBeLessThanOrEqual(safe);
          if (panels[i]?.thin) expect(['leave', 'washOnly']).toContain(p.level);
        });
        return plan.gainPpm;
      };
      expect(gain(Math.max(a, b))).toBeGreaterThanOrEqual(gain(Math.min(a, b)));
    }),
    { seed: 11, numRuns: 60 },
  );
});

test('for any stages that are finished: the best choice never costs more than its ceiling', () => {
  const minutes = fc.integer({ min: 1, max: 200 });
  const finished = fc.record({ wash: minutes, clay: minutes, mask: minutes, cut: fc.option(minutes) });
  fc.assert(
    fc.property(finished, fc.integer({ min: 500, max: 2000 }), (took, ceiling) => {
      const done = { panels: ['bo' as const, 'ro' as const] };
      const c = caseOf({
        finished: new Map([
          ['wash', { minutes: took.wash, panels: [] }],
          ['clay', { minutes: took.clay, panels: [] }],
          ['mask', { ...done, minutes: took.mask }],
          ...(took.cut === null ? [] : ([['cut', { ...done, minutes: took.cut }]] as const)),
        ]),
      });
      const levels = bestWithin(c, 'hours', ceiling, false);
      if (levels) expect(planJob(c, levels).hours.meanMin).toBeLessThanOrEqual(ceiling + 1);
    }),
    { seed: 12, numRuns: 60 },
  );
});
