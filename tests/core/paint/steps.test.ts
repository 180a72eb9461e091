import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { StepRole } from '#core/shared/machineStep.ts';
import { openTestShop, type TestShop } from '#tests/helpers/shop.ts';
import { addJob, type PaintCase } from './job.ts';

let shop: TestShop;
let job: PaintCase;
beforeEach(() => {
  shop = openTestShop();
  job = addJob(shop);
  shop.write('paint.startInspection', { jobId: job.jobId });
});
afterEach(() => shop.close());

async function step(role: StepRole) {
  const found = (await shop.read('paint.steps', {})).find((s) => s.role === role);
  if (!found) throw new Error(`no step ${role}`);
  return found;
}
function spot(passes: number, removedTenthUm: number): void {
  const said = { jobId: job.jobId, panel: 'bo', role: 'heavyCut', seconds: 300 } as const;
  shop.write('paint.recordTestSpot', { ...said, passes, removedTenthUm });
}

describe('what a pass takes', () => {
  test('is contact time at the point times the rate: 19.01 s in four passes of 500 × 500 mm (Preston 1927)', async () => {
    // 4·3,860/50 s of machine × π·140²/4 / (500·500) = 19.016 s; a quarter of it × 1,050 / 1,000 s = 4.99 tenths.
    const cut = await step('heavyCut');
    expect(cut.tenthUmPerPass).toBeCloseTo(4.99, 2);
    expect([cut.own, cut.errorPerPass, cut.spots]).toEqual([false, null, 0]);
  });

  test('is not known where the pad is wider than the section', async () => {
    shop.db.raw.prepare('UPDATE shop SET settings = \'{"estimate":{"sectionWidthMm":200}}\'').run();
    const { tenthUmPerPass: _p, errorPerPass: _e, own: _o, spots: _s, ...finish } = await step('finish');
    shop.write('paint.setStep', { ...finish, padDiameterMm: 230 });
    expect((await step('finish')).tenthUmPerPass).toBeNull();
  });
});

describe('a rate fitted to the shop’s own spots', () => {
  test('goes through the origin and keeps its standard error, here 0: 2.0 µm in four passes, 4.0 in eight', async () => {
    spot(4, 20);
    spot(8, 40);
    expect(shop.write('paint.refitStep', { role: 'heavyCut' })).toMatchObject({ errorPerKs: 0, n: 2 });
    const cut = await step('heavyCut');
    expect(cut.tenthUmPerPass).toBeCloseTo(5, 2);
    expect([cut.own, cut.spots]).toEqual([true, 2]);
  });

  test('is refused below two spots, with how many there are, and the step stays', async () => {
    spot(4, 20);
    const before = await step('heavyCut');
    const reply = await shop.call('paint.refitStep', { role: 'heavyCut' });
    expect(reply).toMatchObject({ ok: false, error: { code: 'SPOTS_TOO_FEW', data: { spots: 1 } } });
    expect((await step('heavyCut')).tenthUmPerKs).toBe(before.tenthUmPerKs);
  });

  test('is refused where it lies beyond every paint, and estimates go on with the step as it was', async () => {
    // 100 µm in one pass of 4.75 s: some 210,000 tenths in 1,000 s of contact.
    spot(1, 1000);
    spot(1, 1000);
    const before = await step('heavyCut');
    const reply = await shop.call('paint.refitStep', { role: 'heavyCut' });
    expect(reply).toMatchObject({ ok: false, error: { code: 'SPOTS_ABSURD', data: { spots: 2 } } });
    expect((await step('heavyCut')).tenthUmPerKs).toBe(before.tenthUmPerKs);
  });
});
