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
/** The lower and the higher, ppm. */
const overlaps = fc
  .tuple(fc.integer({ min: 0, max: 900_000 }), fc.integer({ min: 0, max: 900_000 }))
  .map(([a, b]): [number, number] => [Math.min(a, b), Math.max(a, b)]);
const passes = fc.integer({ min: 1, max: 6 });
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

  test('a lower overlap never shortens the work that takes as much film, at any level and in any paint', () => {
    const worst = fc.constantFrom(null, ...SEVERITIES);
    const paint = fc.constantFrom(...harder);
    fc.assert(
      fc.property(
        size,
        overlaps,
        level,
        worst,
        paint,
        passes,
        passes,
        (panel, [low, high], l, s, h, cut, refine) => {
          const at = (overlapPpm: number, cutPasses: number, refinePasses: number) =>
            panelWork(panel, l, s, h, { ...RULES, overlapPpm, cutPasses, refinePasses });
          const close = at(high, cut, refine);
          const enough = (c: number, r: number): boolean =>
            at(low, c, r).steps.every(
              (step, i) => step.removalTenthUm >= (close.steps[i]?.removalTenthUm ?? 0) - 1e-9,
            );
          let more = 0;
          while (!enough(cut + more, refine + more)) more += 1;
          expect(at(low, cut + more, refine + more).minutes).toBeGreaterThanOrEqual(close.minutes - 1e-9);
        },
      ),
      { seed: 8, numRuns: 400 },
    );
  });

  test('a lower overlap at the same passes is quicker and takes less film: it is other work', () => {
    fc.assert(
      fc.property(size, overlaps, level, passes, (panel, [low, high], l, cutPasses) => {
        const at = (overlapPpm: number) =>
          panelWork(panel, l, 'moderate', 'medium', { ...RULES, overlapPpm, cutPasses });
        expect(at(low).minutes).toBeLessThanOrEqual(at(high).minutes + 1e-9);
        expect(at(low).removalTenthUm).toBeLessThanOrEqual(at(high).removalTenthUm + 1e-9);
      }),
      { seed: 13, numRuns: 300 },
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

test('for any car: a lower overlap never shortens the job of any wish that takes as much film off each panel', () => {
  const wish = fc.constantFrom('oneStage' as const, 'twoStage' as const, 'full' as const);
  fc.assert(
    fc.property(
      overlaps,
      wish,
      fc.constantFrom(...SEVERITIES),
      fc.constantFrom(...harder),
      ([low, high], as, s, h) => {
        const panels = panelCases('saloon', s);
        const planned = (overlapPpm: number, more: number) => {
          const { cutPasses, refinePasses } = RULES;
          const job = { ...JOB, wish: as, hardness: h };
          const rules = {
            ...RULES,
            overlapPpm,
            cutPasses: cutPasses + more,
            refinePasses: refinePasses + more,
          };
          const c = caseOf({ panels, job, rules });
          return planJob(c, levelsForWish(panels, as, job, RULES));
        };
        const close = planned(high, 0);
        const takesLess = (more: number): boolean =>
          planned(low, more).shares.some(
            (share, i) => share.removal < (close.shares[i]?.removal ?? 0) - 1e-9,
          );
        let more = 0;
        while (takesLess(more)) more += 1;
        expect(planned(low, more).hours.meanMin).toBeGreaterThanOrEqual(close.hours.meanMin - 1e-6);
      },
    ),
    { seed: 14, numRuns: 40 },
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
