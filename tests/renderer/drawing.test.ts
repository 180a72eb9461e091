import { describe, expect, it } from 'vitest';
import { BODIES, panelsOf } from '#core/shared/bodies.ts';
import { DRAWINGS } from '#core/shared/flatcar/bodies.ts';
import { mirror, pathArea, polygon } from '#core/shared/flatcar/path.ts';
import { BODY_STYLES, PANELS } from '#core/shared/vocabulary.ts';
import { filmAt, filmField } from '../../renderer/ui/flatcar/film.ts';
import { walkOf } from '../../renderer/ui/flatcar/walk.ts';

/** 1 unit is 5 mm, so a square unit is 0.25 cm². */
const CM2 = 0.25;

describe.each(BODY_STYLES)('the drawing of a %s', (body) => {
  const { panels } = DRAWINGS[body];
  it('has the panels and areas that the estimate reckons with', () => {
    const drawn = Object.fromEntries(
      PANELS.flatMap((panel) => {
        const shape = panels[panel];
        return shape ? [[panel, Math.round(pathArea(shape.d) * CM2)]] : [];
      }),
    );
    expect(drawn).toEqual(BODIES[body].areasCm2);
    expect(Object.keys(panels).sort()).toEqual([...panelsOf(body)].sort());
  });
  it('is closed everywhere and the same on both hands', () => {
    for (const panel of panelsOf(body)) {
      const shape = panels[panel];
      expect(shape?.d.trim().endsWith('Z'), panel).toBe(true);
      if (panel.startsWith('l'))
        expect(panels[`r${panel.slice(1)}` as 'rfw']?.d).toBe(mirror(shape?.d ?? ''));
    }
  });
  it('keeps every panel inside the picture', () => {
    const [x, y, width, height] = DRAWINGS[body].viewBox;
    const outside = panelsOf(body).filter((panel) =>
      polygon(panels[panel]?.d ?? '').some(
        ([px, py]) => px < x || px > x + width || py < y || py > y + height,
      ),
    );
    expect(outside).toEqual([]);
  });
  it('is walked round once, every panel', () => {
    expect([...walkOf(DRAWINGS[body])].sort()).toEqual([...panelsOf(body)].sort());
  });
});

describe('film between readings', () => {
  const square = 'M0 0 L100 0 L100 100 L0 100 Z';
  const readings = [
    { x: 10, y: 50, um: 80 },
    { x: 90, y: 50, um: 120 },
    { x: 50, y: 50, um: 100 },
  ];
  it('says nothing below three readings', () => {
    expect(filmField(square, readings.slice(0, 2), [100])).toBeNull();
  });
  it('stays between the lowest and the highest reading and leans to the nearer one', () => {
    // By symmetry the middle of 80 and 120 around 100 is 100.
    expect(filmAt(readings, 50, 20)).toBeCloseTo(100, 6);
    expect(filmAt(readings, 12, 50)).toBeLessThan(90);
    expect(filmAt(readings, 88, 50)).toBeGreaterThan(110);
  });
  it('draws an edge only at levels that the panel crosses', () => {
    const field = filmField(square, readings, [60, 100, 140]);
    expect(field?.base).toBe(60);
    expect(field?.steps.map((step) => step.level)).toEqual([100]);
    expect(field?.steps[0]?.edge).not.toBe('');
  });
});

describe('area of a path', () => {
  it('measures a square and a circle of arcs', () => {
    expect(pathArea('M0 0 L10 0 L10 10 L0 10 Z')).toBe(100);
    // π r² = 314.159; 48 chords fall short by 0.3 %
    expect(pathArea('M10 0 A10 10 0 0 0 -10 0 A10 10 0 0 0 10 0 Z')).toBeGreaterThan(312);
    expect(pathArea('M10 0 A10 10 0 0 0 -10 0 A10 10 0 0 0 10 0 Z')).toBeLessThan(314.2);
  });
});
