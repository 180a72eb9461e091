import { expect, test } from 'vitest';
import { planJob } from '#core/estimate/rules/plan.ts';
import { bestWithin, stairLevels } from '#core/estimate/rules/stair.ts';
import { allAt, caseOf, panelCases } from './helpers.ts';

const CUT_MIN = 120;
const CUT = { minutes: CUT_MIN, panels: ['bo' as const] };

test('machine work that is finished stays in the hours and the price, whatever is chosen for what is left', () => {
  const fresh = caseOf();
  const begun = caseOf({ finished: new Map([['cut', CUT]]) });
  const nothingMore = planJob(begun, allAt(begun, 'washOnly'));
  expect(nothingMore.stages.find((s) => s.kind === 'cut')).toMatchObject({
    p20Min: CUT_MIN,
    p80Min: CUT_MIN,
    panels: ['bo'],
    materials: [],
  });
  expect(nothingMore.stages.some((s) => s.kind === 'mask')).toBe(true);
  expect(nothingMore.hours.meanMin).toBeGreaterThan(
    planJob(fresh, allAt(fresh, 'washOnly')).hours.meanMin + CUT_MIN,
  );
});

test('the stair begins with what is finished: no step is higher for it, and a ceiling below it fits nothing', () => {
  const begun = caseOf({ panels: panelCases('saloon', 'heavy'), finished: new Map([['cut', CUT]]) });
  const mean = stairLevels(begun, 'hours', false).map((levels) => planJob(begun, levels).hours.meanMin);
  const [first = 0, second = 0] = mean;
  expect(first).toBeGreaterThan(CUT_MIN);
  expect(second - first).toBeLessThan(CUT_MIN);
  expect(bestWithin(begun, 'hours', CUT_MIN, false)).toBeNull();
  const levels = bestWithin(begun, 'hours', second + 1, false) ?? [];
  expect(planJob(begun, levels).hours.meanMin).toBeLessThanOrEqual(second + 1);
});
