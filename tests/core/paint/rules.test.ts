import { describe, expect, test } from 'vitest';
import { levelRefusal } from '#core/paint/rules/permit.ts';
import { contactSeconds, refitRate, removalTenthUm } from '#core/paint/rules/removal.ts';
import { verdictOf } from '#core/paint/rules/verdict.ts';
import { depthOf } from '#core/shared/depths.ts';

describe('removal by contact time', () => {
  test('Preston 1927: 1e-13 /Pa × 20 kPa × 2 m/s is 4 nm/s, 1.2 µm in five minutes', () => {
    const tenthUmPerSecond = 1e-13 * 20_000 * 2 * 1e7;
    expect(tenthUmPerSecond).toBeCloseTo(0.04, 12);
    expect(removalTenthUm(tenthUmPerSecond, 300, 1, 1)).toBeCloseTo(12, 9);
  });

  test('the worked section has 19 s of contact at a point in 309 s of running', () => {
    const c = { passes: 4, pathMm: 3860, armSpeedMmS: 50, padDiameterMm: 140, alongMm: 500, acrossMm: 500 };
    expect((c.passes * c.pathMm) / c.armSpeedMmS).toBeCloseTo(308.8, 9);
    // 308.8 × π·140²/4 / 250,000
    expect(contactSeconds(c)).toBeCloseTo(19.0146, 3);
  });

  test('twice the speed or the pressure takes twice the film', () => {
    expect(removalTenthUm(0.5, 20, 2, 1)).toBe(20);
    expect(removalTenthUm(0.5, 20, 1, 0.5)).toBe(5);
  });

  test('the shop’s own rate is a line through the origin with its error', () => {
    const fit = refitRate([
      { seconds: 60, removedTenthUm: 130 },
      { seconds: 61, removedTenthUm: 131 },
      { seconds: 62, removedTenthUm: 132 },
    ]);
    // Σxy/Σx² = (7800 + 7991 + 8184)/(3600 + 3721 + 3844)
    expect(fit?.tenthUmPerSecond).toBeCloseTo(23_975 / 11_165, 12);
    expect(refitRate([{ seconds: 60, removedTenthUm: 130 }])).toBeNull();
  });
});

describe('what comes out', () => {
  const swirls = depthOf('swirls', 'moderate'); // 0.5–1.2 µm

  test('a range within the plan comes out, a straddling one may soften, a deeper one stays', () => {
    expect(verdictOf('swirls', swirls, 24, 43).verdict).toBe('comesOut');
    expect(verdictOf('swirls', swirls, 8, 43)).toEqual({ verdict: 'maySoften', reason: 'straddlesRemoval' });
    expect(verdictOf('swirls', swirls, 3, 43)).toEqual({ verdict: 'stays', reason: 'deeperThanPlan' });
    expect(verdictOf('swirls', swirls, 0, 43)).toEqual({ verdict: 'stays', reason: 'noPlan' });
  });

  test('etched pits deeper than the safe removal stay, however much is planned', () => {
    expect(verdictOf('etching', depthOf('etching', 'heavy'), 100, 43)).toEqual({
      verdict: 'stays',
      reason: 'deeperThanSafe',
    });
  });

  test('where film is not known nothing is promised', () => {
    expect(verdictOf('swirls', swirls, 24, null)).toEqual({ verdict: 'maySoften', reason: 'filmUnknown' });
  });

  test('chips stay and bonded contamination comes off without polishing', () => {
    expect(verdictOf('stoneChips', depthOf('stoneChips', 'light'), 24, 43).reason).toBe('notInFilm');
    expect(verdictOf('contamination', depthOf('contamination', 'heavy'), 0, null).verdict).toBe('comesOut');
  });
});

describe('permission of the film', () => {
  const c = { level: 'twoStage', plannedTenthUm: 24, safeTenthUm: 43, thin: false, override: null } as const;

  test('no machine works on a thin panel without a named person', () => {
    expect(levelRefusal({ ...c, thin: true })).toBe('thin');
    expect(levelRefusal({ ...c, thin: true, level: 'oneStage', plannedTenthUm: 8 })).toBe('thin');
    expect(levelRefusal({ ...c, thin: true, level: 'washOnly', plannedTenthUm: 0 })).toBeNull();
    expect(
      levelRefusal({ ...c, thin: true, override: { person: 'Wren Calder', reason: 'owner asked' } }),
    ).toBeNull();
  });

  test('a plan past the safe limit is refused, unknown film is not', () => {
    expect(levelRefusal({ ...c, safeTenthUm: 20 })).toBe('belowFloor');
    expect(levelRefusal({ ...c, safeTenthUm: null })).toBeNull();
  });
});
