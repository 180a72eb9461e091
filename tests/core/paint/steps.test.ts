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
/** What is set, with the revision that was seen. */
async function fields(role: StepRole) {
  const { tenthUmPerPass: _p, errorPerPass: _e, own: _o, spots: _s, ...set } = await step(role);
  return set;
}
async function refused(name: string, input: unknown) {
  const reply = await shop.call(name, input);
  return reply.ok ? null : [reply.error.code, reply.error.data];
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
    shop.write('paint.setStep', { ...(await fields('finish')), padDiameterMm: 230 });
    expect((await step('finish')).tenthUmPerPass).toBeNull();
  });
});

describe('a step in two windows', () => {
  test('is not set over what the other set since, from the default on', async () => {
    const seen = await fields('finish');
    expect(seen.revision).toBe(0);
    shop.write('paint.setStep', { ...seen, speedRpm: 3000 });
    const stale = ['STALE', { what: 'machineStep' }];
    expect(await refused('paint.setStep', { ...seen, pressureN: 50 })).toEqual(stale);
    const now = await fields('finish');
    expect([now.revision, now.speedRpm, now.pressureN]).toEqual([1, 3000, 40]);
    shop.write('paint.setStep', { ...now, pressureN: 50 });
    expect(await refused('paint.setStep', now)).toEqual(stale);
  });

  test('is not fitted over it either', async () => {
    spot(4, 20);
    spot(8, 40);
    shop.write('paint.setStep', { ...(await fields('heavyCut')), speedRpm: 1600 });
    expect(await refused('paint.refitStep', { role: 'heavyCut', revision: 0 })).toEqual([
      'STALE',
      { what: 'machineStep' },
    ]);
    shop.write('paint.refitStep', { role: 'heavyCut', revision: 1 });
    expect(await step('heavyCut')).toMatchObject({ speedRpm: 1600, revision: 2 });
  });
});

describe('a rate fitted to the shop’s own spots', () => {
  test('goes through the origin and keeps its standard error, here 0: 2.0 µm in four passes, 4.0 in eight', async () => {
    spot(4, 20);
    spot(8, 40);
    expect(shop.write('paint.refitStep', { role: 'heavyCut', revision: 0 })).toMatchObject({
      errorPerKs: 0,
      n: 2,
    });
    const cut = await step('heavyCut');
    expect(cut.tenthUmPerPass).toBeCloseTo(5, 2);
    expect([cut.own, cut.spots]).toEqual([true, 2]);
  });

  test('is refused below two spots, with how many there are, and the step stays', async () => {
    spot(4, 20);
    const before = await step('heavyCut');
    const reply = await shop.call('paint.refitStep', { role: 'heavyCut', revision: 0 });
    expect(reply).toMatchObject({ ok: false, error: { code: 'SPOTS_TOO_FEW', data: { spots: 1 } } });
    expect((await step('heavyCut')).tenthUmPerKs).toBe(before.tenthUmPerKs);
  });

  test('is refused where it lies beyond every paint, and estimates go on with the step as it was', async () => {
    // 100 µm in one pass of 4.75 s: some 210,000 tenths in 1,000 s of contact.
    spot(1, 1000);
    spot(1, 1000);
    const before = await step('heavyCut');
    const reply = await shop.call('paint.refitStep', { role: 'heavyCut', revision: 0 });
    expect(reply).toMatchObject({ ok: false, error: { code: 'SPOTS_ABSURD', data: { spots: 2 } } });
    expect((await step('heavyCut')).tenthUmPerKs).toBe(before.tenthUmPerKs);
  });
});
