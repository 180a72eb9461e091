import { expect, it } from 'vitest';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { say as sayText } from '#core/shared/text/say.ts';
import type { LocalDay, Ppm } from '#core/shared/units.ts';
import type { WhatIfRow, WhatIfView } from '#core/shared/views/whatIf.ts';
import type { Say } from '../../renderer/bridge/texts.tsx';
import { saidOf } from '../../renderer/features/figures/whatIf.ts';

const say: Say = (key, values) => sayText('en', key, values);
const STILL = { low: 1, mid: 1, high: 1 };

function saidFor(measure: WhatIfRow['measure'], low: number, mid: number, high: number): readonly string[] {
  const view: WhatIfView = {
    ...{ change: { longerMin: 60 }, fromDay: '2026-05-25' as LocalDay, toDay: '2026-11-22' as LocalDay },
    ...{ weeks: 26, finished: 300, rounds: 100, roundsAsked: 100, limits: [] },
    ...{ ownWaitPpm: 0 as Ppm, ownPausePpm: 0 as Ppm },
    rows: [{ measure, past: null, before: STILL, after: STILL, difference: { low, mid, high } }],
  };
  return saidOf(say, { ...PLAIN_MANNER, currency: 'EUR' }, view);
}

it.each<[WhatIfRow['measure'], number, number, number, string]>([
  ['wait', -2, -0.6, -0.3, 'A car gets in 0.6 days sooner (0.3 to 2.0).'],
  ['wait', 0.3, 0.6, 2, 'A car gets in 0.6 days later (0.3 to 2.0).'],
  ['jobs', -1.2, -1, -0.5, '1.0 fewer jobs a week (0.5 to 1.2).'],
  ['margin', -41_000, -35_000, -29_000, 'Less is left: EUR 350 a week (290 to 410).'],
  ['margin', 29_000, 29_010, 29_020, 'More is left: EUR 290 a week.'],
  ['wait', -1, -0.4, 0.2, say('whatIf.said.none')],
])('a difference in %s from %d by %d to %d has its sign in a word alone', (measure, low, mid, high, text) => {
  expect(saidFor(measure, low, mid, high)).toEqual([text]);
});
