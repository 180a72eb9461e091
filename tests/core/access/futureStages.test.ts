import { afterEach, expect, test } from 'vitest';
import type { LocalDay } from '#core/shared/units.ts';
import { type BayShop, openBayShop } from '../bays/shop.ts';

let shop: BayShop;
afterEach(() => shop.close());

const DAY = (text: string): LocalDay => text as LocalDay;

test('what is placed with a leaver after their last day is listed when they are ended, and not what is before', async () => {
  shop = openBayShop();
  const jobId = shop.job('Vane', [
    { kind: 'cut', min: 300, bay: 'correction', skill: 'correction' },
    { kind: 'refine', min: 300, bay: 'correction', skill: 'correction' },
    { kind: 'protect', min: 120, bay: 'protection', skill: 'protection' },
  ]);
  // Only Ann protects; the clock stands at Wednesday 10:00, so ten hours of correction come first.
  shop.write('bays.bookEarliest', { jobId });
  const all = await shop.read('access.futureStages', { personId: shop.ann, lastDay: DAY('2026-11-24') });
  expect(all.map((s) => s.stage)).toContain('protect');
  const protect = all.find((s) => s.stage === 'protect');
  const day = new Date((protect?.startMin ?? 0) * 60_000).toISOString().slice(0, 10);
  const before = new Date(Date.parse(day) - 86_400_000).toISOString().slice(0, 10);
  expect(await shop.read('access.futureStages', { personId: shop.ann, lastDay: DAY('2027-06-30') })).toEqual(
    [],
  );
  const { futureStages } = shop.write('access.endPerson', {
    ...{ personId: shop.ann, revision: 1, lastDay: DAY(before) },
  });
  expect(futureStages).toMatchObject([{ jobId, stage: 'protect', customer: 'Vane' }]);
  expect(await shop.read('access.futureStages', { personId: shop.ann })).toEqual(futureStages);
});

test('somebody unknown has no future stages but a refusal', async () => {
  shop = openBayShop();
  const reply = await shop.call('access.futureStages', { personId: 'p'.repeat(20) });
  expect(reply).toMatchObject({ ok: false, error: { code: 'NOT_FOUND' } });
});
