import { afterEach, beforeEach, expect, test } from 'vitest';
import { addJob, type PaintCase } from '#tests/core/paint/job.ts';
import { openTestShop, type TestShop } from '#tests/helpers/shop.ts';

let shop: TestShop;
let job: PaintCase;
beforeEach(() => {
  shop = openTestShop();
  job = addJob(shop);
});
afterEach(() => shop.close());

async function newest() {
  const [first] = await shop.read('estimate.ofJob', { jobId: job.jobId });
  if (!first) throw new Error('no estimate');
  return first;
}

test('never goes further than was asked because a ceiling leaves room', async () => {
  for (const wish of ['clean', 'protect', 'oneStage', 'full', 'interior'] as const) {
    shop.write('estimate.provisional', { jobId: job.jobId, wish, condition: 'worn' });
    const open = await newest();
    const ceiling = { kind: 'money', value: open.price.totalMinor + 30_000 } as const;
    shop.write('estimate.provisional', { jobId: job.jobId, wish, condition: 'worn', ceiling });
    expect((await newest()).panels).toEqual(open.panels);
    expect((await newest()).price.totalMinor).toBe(open.price.totalMinor);
  }
});

test('stays a one-step correction where the ceiling lies below one of the whole car', async () => {
  const asked = { jobId: job.jobId, wish: 'oneStage', condition: 'worn' } as const;
  shop.write('estimate.provisional', asked);
  const value = (await newest()).price.totalMinor - 10_000;
  shop.write('estimate.provisional', { ...asked, ceiling: { kind: 'money', value } });
  const e = await newest();
  expect(e.price.totalMinor).toBeLessThanOrEqual(value);
  expect(new Set(e.panels.map((p) => p.level))).toEqual(new Set(['washOnly', 'oneStage']));
  const clean = { jobId: job.jobId, wish: 'clean', ceiling: { kind: 'money', value: 1000 } };
  expect(await shop.call('estimate.provisional', clean)).toMatchObject({ error: { code: 'NOTHING_FITS' } });
});
