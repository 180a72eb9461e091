import { describe, expect, test } from 'vitest';
import { cutUp, type SectionCase, sectionTime } from '#core/estimate/rules/sections.ts';
import { contactSeconds } from '#core/paint/rules/removal.ts';
import { DomainError } from '#core/shared/errors.ts';

const worked: SectionCase = {
  alongMm: 500,
  acrossMm: 500,
  padDiameterMm: 140,
  overlapPpm: 500_000,
  armSpeedMmS: 50,
  passes: 4,
  applyS: 15,
  wipeS: 30,
  cleanS: 0,
  cleanEvery: 1,
};

describe('time of a section', () => {
  test('500 × 500 mm, 140 mm pad, half overlap, 50 mm/s, 4 passes: 7 lanes, 3,860 mm, 353.8 s', () => {
    const t = sectionTime(worked);
    expect(t.lanes).toBe(7);
    expect(t.pathMm).toBe(3860);
    expect(t.seconds).toBeCloseTo(353.8, 9);
  });

  test('a section as wide as the pad is one lane without a way across', () => {
    expect(sectionTime({ ...worked, acrossMm: 140 })).toMatchObject({ lanes: 1, pathMm: 500 });
  });

  test('one millimetre wider takes a second lane', () => {
    // ceil(1/70) + 1 = 2 lanes: 2·500 + 1
    expect(sectionTime({ ...worked, acrossMm: 141 })).toMatchObject({ lanes: 2, pathMm: 1001 });
  });

  test('a section a third as wide as the pad is refused: the pad would overhang', () => {
    try {
      sectionTime({ ...worked, acrossMm: 140 / 3 });
      expect.unreachable();
    } catch (e) {
      expect(e).toBeInstanceOf(DomainError);
      expect((e as DomainError).data).toEqual({ padMm: 140, sectionMm: 46 });
    }
  });

  test('a whole number of lanes is not raised by the last bit of a double', () => {
    // d·(1 − ω) = 140·0.9 = 126 and (b − d) = 378 = 3·126: 4 lanes
    expect(sectionTime({ ...worked, acrossMm: 518, overlapPpm: 100_000 }).lanes).toBe(4);
  });

  test('cleaning the pad every second section adds half its time to each', () => {
    expect(sectionTime({ ...worked, cleanS: 20, cleanEvery: 2 }).seconds).toBeCloseTo(363.8, 9);
  });

  test('a lower overlap at the same passes is shorter and takes less: only for the same film it never is', () => {
    const wide = { ...worked, overlapPpm: 300_000 };
    const film = (c: SectionCase): number => contactSeconds({ ...c, ...sectionTime(c) });
    // ceil(360/98) + 1 = 5 lanes: 5·500 + 360 = 2,860 mm; 15 + 4·2860/50 + 30 s
    expect(sectionTime(wide)).toMatchObject({ lanes: 5, pathMm: 2860 });
    expect(sectionTime(wide).seconds).toBeCloseTo(273.8, 9);
    expect(film(wide) / film(worked)).toBeCloseTo(2860 / 3860, 9);
    // Six passes are the first that take as much, and they last longer than the four at half overlap.
    const asMuch = { ...wide, passes: 6 };
    expect(film({ ...wide, passes: 5 })).toBeLessThan(film(worked));
    expect(film(asMuch)).toBeGreaterThanOrEqual(film(worked));
    expect(sectionTime(asMuch).seconds).toBeGreaterThan(sectionTime(worked).seconds);
  });

  test('more overlap or more passes never shorten a section', () => {
    let before = 0;
    for (let overlapPpm = 0; overlapPpm <= 900_000; overlapPpm += 25_000) {
      const t = sectionTime({ ...worked, overlapPpm }).seconds;
      expect(t).toBeGreaterThanOrEqual(before);
      expect(sectionTime({ ...worked, overlapPpm, passes: 5 }).seconds).toBeGreaterThan(t);
      before = t;
    }
  });
});

test('a panel is cut into equal sections no larger than allowed', () => {
  expect(cutUp(1200, 900, 500, 500)).toEqual({ count: 6, alongMm: 400, acrossMm: 450 });
  expect(cutUp(500, 500, 500, 500)).toEqual({ count: 1, alongMm: 500, acrossMm: 500 });
});
