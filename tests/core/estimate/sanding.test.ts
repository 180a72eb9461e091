import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { refusalOf } from '#core/estimate/rules/levels.ts';
import { planJob } from '#core/estimate/rules/plan.ts';
import { sandingOf, sandingWork } from '#core/estimate/rules/sanding.ts';
import { type PanelCase, panelShare } from '#core/estimate/rules/stages.ts';
import { bestWithin } from '#core/estimate/rules/stair.ts';
import { depthOf } from '#core/shared/depths.ts';
import type { Level, Severity } from '#core/shared/vocabulary.ts';
import { caseOf, JOB, panelCases, RULES } from './helpers.ts';

/** A bonnet with pits etched in, 5 to 15 µm deep, and film for 25 µm. */
function pitted(change: Partial<PanelCase> = {}, severity: Severity = 'heavy'): PanelCase {
  const found = { defect: 'etching', severity, depth: depthOf('etching', severity) } as const;
  const bonnet = panelCases('saloon', null, { findings: [found], sandable: 250, ...change });
  const one = bonnet.find((p) => p.size.panel === 'bo');
  if (!one) throw new Error('a saloon has a bonnet');
  return one;
}
const AGREED = { name: 'Marit Vane', way: 'spoken', atMs: 0, upToTenthUm: 150 } as const;
const refused = (change: Partial<PanelCase>): string | null =>
  refusalOf(pitted(change), 'sanded', JOB, RULES);

describe('wet sanding', () => {
  test('is for pits and deep scratches that polishing cannot reach, as deep as they go', () => {
    expect(sandingOf(pitted().findings, 60)).toEqual({ low: 50, high: 150 });
    // Light pits are 1.5 to 3 µm: a three-step correction that takes 4 µm reaches them.
    expect(sandingOf(pitted({}, 'light').findings, 40)).toBeNull();
    const swirls = { defect: 'swirls', severity: 'heavy', depth: depthOf('swirls', 'heavy') } as const;
    expect(sandingOf([swirls], 5)).toBeNull();
    const scratch = { defect: 'deepScratches', severity: 'light', depth: { low: 25, high: 45 } } as const;
    expect(sandingOf([...pitted().findings, scratch], 30)).toEqual({ low: 50, high: 150 });
  });

  test('takes the pits and what polishing its marks out takes after it', () => {
    const p = pitted({ consent: AGREED });
    const polished = panelShare(p, 'threeStage', JOB, RULES);
    const sanded = panelShare(p, 'sanded', JOB, RULES);
    expect(sanded.sanding).toMatchObject({ low: 50, high: 150 });
    expect(sanded.removal).toBeGreaterThanOrEqual(150 + polished.removal);
    const stage = sanded.parts.find((s) => s.kind === 'sand');
    expect(stage?.minutes).toBeGreaterThan(30);
    expect(stage?.amounts.get('sandingDisc')).toBeGreaterThan(0);
    expect(stage?.amounts.get('fineSandingDisc')).toBeGreaterThan(0);
  });

  test('enters no plan before the owner agreed to as much, even on another’s word', () => {
    const override = { person: 'Wren Calder', reason: 'owner asked' };
    expect(refused({})).toBe('notAgreed');
    expect(refused({ override })).toBe('notAgreed');
    expect(refused({ consent: { ...AGREED, upToTenthUm: 149 } })).toBe('notAgreed');
    expect(refused({ consent: AGREED })).toBeNull();
  });

  test('needs film for the pits and the polishing after, and none on a thin panel, save by a name', () => {
    const override = { person: 'Wren Calder', reason: 'owner asked' };
    const consent = AGREED;
    const needed = panelShare(pitted({ consent }), 'sanded', JOB, RULES).removal;
    expect(refused({ consent, sandable: Math.ceil(needed) })).toBeNull();
    expect(refused({ consent, sandable: Math.floor(needed) - 1 })).toBe('belowFloor');
    expect(refused({ consent, thin: true })).toBe('thin');
    expect(refused({ consent, sandable: null })).toBe('filmUnknown');
    expect(refused({ consent, sandable: 10, override })).toBeNull();
    expect(refused({ consent, thin: true, override })).toBeNull();
    expect(refused({ consent, findings: [] })).toBe('nothingToSand');
  });

  test('stands between masking and cutting with its panels', () => {
    const c = caseOf({ panels: [pitted({ consent: AGREED })] });
    const plan = planJob(c, ['sanded']);
    const kinds = plan.stages.map((s) => s.kind);
    expect(kinds.slice(kinds.indexOf('mask'))).toEqual(
      expect.arrayContaining(['mask', 'sand', 'cut', 'refine']),
    );
    expect(kinds.indexOf('sand')).toBe(kinds.indexOf('mask') + 1);
    expect(kinds.indexOf('cut')).toBe(kinds.indexOf('sand') + 1);
    expect(plan.panels[0]).toMatchObject({ level: 'sanded', sanding: { lowTenthUm: 50, highTenthUm: 150 } });
    expect(plan.stages.find((s) => s.kind === 'sand')?.panels).toEqual(['bo']);
  });

  test('is never chosen by the program where nobody agreed, and never past the film where somebody did', () => {
    const film = fc.record({ sandable: fc.option(fc.integer({ min: 0, max: 260 })), thin: fc.boolean() });
    fc.assert(
      fc.property(film, fc.boolean(), fc.integer({ min: 200, max: 1500 }), (f, agreed, ceiling) => {
        const panel = pitted({ ...f, consent: agreed ? AGREED : null });
        const levels = bestWithin(caseOf({ panels: [panel] }), 'hours', ceiling, true) ?? [];
        const [level] = levels as Level[];
        if (level !== 'sanded') return;
        expect(agreed).toBe(true);
        expect(f.thin).toBe(false);
        expect(panelShare(panel, 'sanded', JOB, RULES).removal).toBeLessThanOrEqual(f.sandable ?? -1);
      }),
      { seed: 31, numRuns: 80 },
    );
  });

  test('takes no less time for deeper pits or harder paint', () => {
    const depth = fc.integer({ min: 20, max: 250 });
    fc.assert(
      fc.property(depth, depth, (a, b) => {
        const at = (high: number, hardness: 'medium' | 'hard'): number =>
          sandingWork(pitted().size, { low: 10, high }, hardness).minutes;
        expect(at(Math.max(a, b), 'medium')).toBeGreaterThanOrEqual(at(Math.min(a, b), 'medium'));
        expect(at(a, 'hard')).toBeGreaterThan(at(a, 'medium'));
      }),
      { seed: 32 },
    );
  });
});
