import { expect, test } from 'vitest';
import { titlesOf } from '#core/billing/rules/optionTitles.ts';
import type { Level, PanelId } from '#core/shared/vocabulary.ts';

const option = (wish: string, levels: readonly Level[]) => ({
  wish,
  panels: levels.map((level, i) => ({ panel: (['bo', 'ro', 'lfw'] as PanelId[])[i] ?? 'bo', level })),
});

test('options that go as far are told apart by the panels that a machine works on, others by how far they go', () => {
  const all = option('oneStage', ['oneStage', 'twoStage', 'sanded']);
  const less = option('oneStage', ['oneStage', 'washOnly', 'leave']);
  const clean = option('clean', ['washOnly', 'washOnly', 'washOnly']);
  expect(titlesOf([all, less, clean])).toEqual([
    { wish: 'oneStage', panels: 3 },
    { wish: 'oneStage', panels: 1 },
    { wish: 'clean', panels: null },
  ]);
  expect(titlesOf([all])).toEqual([{ wish: 'oneStage', panels: null }]);
});
