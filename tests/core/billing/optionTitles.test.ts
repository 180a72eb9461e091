import { describe, expect, test } from 'vitest';
import { titlesOf } from '#core/billing/rules/optionTitles.ts';
import type { Level, PanelId } from '#core/shared/vocabulary.ts';

const PLAIN = { interior: false, protection: 'sealant', two: [] } as const;
const option = (
  wish: string,
  levels: readonly Level[],
  more: Partial<Parameters<typeof titlesOf>[0][number]> = {},
) => ({
  ...{ wish, version: 1, asked: PLAIN },
  panels: levels.map((level, i) => ({ panel: (['bo', 'ro', 'lfw'] as PanelId[])[i] ?? 'bo', level })),
  ...more,
});
const parts = (...options: Parameters<typeof titlesOf>[0]) => titlesOf(options).map((o) => o.parts);

test('options that go as far are told apart by the panels that a machine works on, others by how far they go', () => {
  const all = option('oneStage', ['oneStage', 'twoStage', 'sanded']);
  const less = option('oneStage', ['oneStage', 'washOnly', 'leave']);
  const clean = option('clean', ['washOnly', 'washOnly', 'washOnly']);
  expect(titlesOf([all, less, clean])).toEqual([
    { wish: 'oneStage', parts: [{ what: 'panels', n: 3 }] },
    { wish: 'oneStage', parts: [{ what: 'panels', n: 1 }] },
    { wish: 'clean', parts: [] },
  ]);
  expect(titlesOf([all])).toEqual([{ wish: 'oneStage', parts: [] }]);
});

describe('on as many panels they are told apart by', () => {
  const base = option('full', ['oneStage', 'oneStage', 'leave']);

  test('how many of them are taken in two steps', () => {
    const deep = option('full', ['oneStage', 'twoStage', 'leave']);
    expect(parts(base, deep)).toEqual([[{ what: 'deep', n: 0 }], [{ what: 'deep', n: 1 }]]);
  });

  test('the interior, the protection and the people', () => {
    const asked = (more: object) => ({ ...base, asked: { ...PLAIN, ...more } });
    expect(parts(base, asked({ interior: true })).flat()).toEqual([
      { what: 'interior', on: false },
      { what: 'interior', on: true },
    ]);
    expect(parts(base, asked({ protection: 'coating' }))[1]).toEqual([
      { what: 'protection', kind: 'coating' },
    ]);
    expect(parts(base, asked({ two: ['cut'] }))[1]).toEqual([{ what: 'hands', n: 1 }]);
  });

  test('which panels they are, and by the estimate where nothing else differs', () => {
    const other = option('full', ['oneStage', 'leave', 'oneStage']);
    expect(parts(base, other)).toEqual([
      [{ what: 'only', panels: ['ro'] }],
      [{ what: 'only', panels: ['lfw'] }],
    ]);
    expect(parts(base, { ...base, version: 4 })).toEqual([
      [{ what: 'version', n: 1 }],
      [{ what: 'version', n: 4 }],
    ]);
  });

  test('as much as tells three from each other, and no more', () => {
    const fewer = option('full', ['oneStage', 'leave', 'leave']);
    const inside = { ...base, asked: { ...PLAIN, interior: true } };
    const told = parts(base, inside, fewer);
    expect(new Set(told.map((p) => JSON.stringify(p))).size).toBe(3);
    expect(told.map((p) => p.map((one) => one.what))).toEqual([
      ['panels', 'interior'],
      ['panels', 'interior'],
      ['panels', 'interior'],
    ]);
  });
});
