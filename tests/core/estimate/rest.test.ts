import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type EstimateCase, planJob } from '#core/estimate/rules/plan.ts';
import { reachesOf, restOf } from '#core/estimate/rules/rest.ts';
import { stairLevels } from '#core/estimate/rules/stair.ts';
import { depthOf } from '#core/shared/depths.ts';
import type { RestView } from '#core/shared/views/estimate.ts';
import { LEVELS, type Level } from '#core/shared/vocabulary.ts';
import { allAt, caseOf, panelCases } from './helpers.ts';

const rest = (c: EstimateCase, levels: readonly Level[]): RestView =>
  restOf(c.panels, reachesOf(c), planJob(c, levels));
const top = (c: EstimateCase): Level[] => stairLevels(c, 'hours', false).at(-1) ?? [];
const etched = {
  findings: [{ defect: 'etching', severity: 'heavy', depth: depthOf('etching', 'heavy') }],
} as const;

describe('why the rest of the damage stays', () => {
  test('a car left as it is: all that could come out is left by the choice', () => {
    // Light swirls are 0.2 to 0.6 µm deep, and every panel has film for 6 µm.
    const c = caseOf({ panels: panelCases('saloon', 'light') });
    expect(rest(c, allAt(c, 'leave'))).toEqual({
      choicePpm: 1_000_000,
      filmPpm: 0,
      depthPpm: 0,
      unknownPpm: 0,
    });
    expect(rest(c, top(c))).toEqual({ choicePpm: 0, filmPpm: 0, depthPpm: 0, unknownPpm: 0 });
  });

  test('a thin panel: the film holds all of it, whatever the choice', () => {
    const c = caseOf({ panels: panelCases('saloon', 'light', { thin: true }) });
    expect(rest(c, allAt(c, 'leave'))).toEqual({
      choicePpm: 0,
      filmPpm: 1_000_000,
      depthPpm: 0,
      unknownPpm: 0,
    });
  });

  test('film for no more than a light step: the rest of what a deeper one would take is held by it', () => {
    const scratched = {
      defect: 'scratches',
      severity: 'heavy',
      depth: depthOf('scratches', 'heavy'),
    } as const;
    const c = caseOf({ panels: panelCases('saloon', null, { findings: [scratched], safe: 15 }) });
    const { filmPpm, choicePpm } = rest(c, top(c));
    expect(choicePpm).toBe(0);
    expect(filmPpm).toBeGreaterThan(0);
  });

  test('pits of 5 to 15 µm that nobody agreed to sand lie deeper than polishing goes', () => {
    const c = caseOf({ panels: panelCases('saloon', null, { ...etched, safe: 250, sandable: 250 }) });
    const { choicePpm, filmPpm, depthPpm } = rest(c, top(c));
    expect([choicePpm, filmPpm]).toEqual([0, 0]);
    expect(depthPpm).toBeGreaterThan(500_000);
    const consent = { name: 'Marit Vane', way: 'spoken', atMs: 0, upToTenthUm: 150 } as const;
    const agreed = caseOf({ panels: c.panels.map((p) => ({ ...p, consent })) });
    expect(rest(agreed, top(agreed)).depthPpm).toBe(0);
  });

  test('what would come out where film is not known is told apart: nothing is promised there', () => {
    const panels = panelCases('saloon', 'light').map((p) =>
      p.size.panel === 'bo' || p.size.panel === 'ro' ? { ...p, safe: null } : p,
    );
    const c = caseOf({ panels });
    const { gainPpm, panels: planned } = planJob(c, top(c));
    const there = planned.filter((p) => p.panel === 'bo' || p.panel === 'ro').map((p) => p.gainPpm);
    expect(gainPpm).toBe(1_000_000);
    const { unknownPpm } = rest(c, top(c));
    expect(Math.abs(unknownPpm - there.reduce((a, b) => a + b, 0))).toBeLessThanOrEqual(2);
    expect(unknownPpm).toBeGreaterThan(0);
    expect(rest(c, allAt(c, 'leave')).unknownPpm).toBe(0);
  });

  test('a car without damage has no rest', () => {
    const c = caseOf({ panels: panelCases('saloon', null) });
    expect(rest(c, allAt(c, 'washOnly'))).toEqual({ choicePpm: 0, filmPpm: 0, depthPpm: 0, unknownPpm: 0 });
  });

  test('gain and rest make a whole, and at the end of the stair nothing is left by the choice', () => {
    const panel = fc.record({ thin: fc.boolean(), safe: fc.option(fc.integer({ min: 0, max: 200 })) });
    fc.assert(
      fc.property(
        fc.array(panel, { minLength: 4, maxLength: 4 }),
        fc.constantFrom(...LEVELS),
        (kinds, level) => {
          const swirled = panelCases('saloon', 'heavy').slice(0, 4);
          const c = caseOf({ panels: swirled.map((p, i) => ({ ...p, ...kinds[i] })) });
          const levels = level === 'sanded' ? top(c) : allAt(c, level);
          const of = rest(c, levels);
          const gain = planJob(c, levels).gainPpm;
          expect(Math.min(of.choicePpm, of.filmPpm, of.depthPpm)).toBeGreaterThanOrEqual(0);
          expect(Math.abs(gain + of.choicePpm + of.filmPpm + of.depthPpm - 1_000_000)).toBeLessThanOrEqual(2);
          expect(rest(c, top(c)).choicePpm).toBeLessThanOrEqual(2);
        },
      ),
      { numRuns: 60 },
    );
  });
});
