import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { depthOf, hasDepth } from '#core/shared/depths.ts';
import { depthText } from '#core/shared/text/format.ts';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { DEFECTS, type Defect, SEVERITIES } from '#core/shared/vocabulary.ts';
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

const seen = (defect: Defect, depth?: { low: number; high: number }, sure = false) => ({
  ...{ jobId: job.jobId, panels: ['bo' as const], defect, severity: 'moderate' as const, sure },
  ...(depth ? { depth } : {}),
});
async function bonnet(jobId = job.jobId) {
  const view = await shop.read('paint.inspectionOf', { jobId });
  return view?.panels.find((p) => p.panel === 'bo');
}
async function refusal(name: string, input: unknown) {
  const reply = await shop.call(name, input);
  return reply.ok ? null : reply.error;
}

describe('the depth range of a finding', () => {
  test('is the class of its severity until somebody gives their own', async () => {
    shop.write('paint.addFindings', seen('scratches'));
    shop.write('paint.addFindings', seen('scratches', { low: 30, high: 45 }));
    const depths = (await bonnet())?.findings.map((f) => f.depth) ?? [];
    expect(depths.toSorted((a, b) => a.lowTenthUm - b.lowTenthUm)).toEqual([
      { lowTenthUm: 12, highTenthUm: 25 },
      { lowTenthUm: 30, highTenthUm: 45 },
    ]);
  });

  test('decides what comes out, may soften or stays, on the panel and on the quote', async () => {
    shop.write('paint.addReadings', { jobId: job.jobId, panel: 'bo', values: [112, 113, 114] });
    const ranges = {
      shallow: { low: 2, high: 6 },
      straddles: { low: 6, high: 60 },
      deep: { low: 60, high: 70 },
    };
    for (const depth of Object.values(ranges)) shop.write('paint.addFindings', seen('scratches', depth));
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
    const taken = (await bonnet())?.budget.plannedTenthUm ?? 0;
    // Between them: the word is the same for all three, so only the range tells them apart.
    expect(taken).toBeGreaterThan(6);
    expect(taken).toBeLessThan(60);
    const verdicts = (await bonnet())?.findings.map((f) => [f.depth.lowTenthUm, f.verdict]);
    expect(Object.fromEntries(verdicts ?? [])).toEqual({ 2: 'comesOut', 6: 'maySoften', 60: 'stays' });
    const [estimate] = await shop.read('estimate.ofJob', { jobId: job.jobId });
    const said = estimate?.limits.filter((l) => l.panel === 'bo').map((l) => l.key);
    expect(said).toEqual(expect.arrayContaining(['softens', 'staysDeep']));
  });

  test('is how deep wet sanding would have to go, and what the work then brings', async () => {
    const sanded = async (depth?: { low: number; high: number }) => {
      shop.write('paint.addFindings', seen('etching', depth));
      shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
      const view = await shop.read('estimate.sanding', { jobId: job.jobId });
      return view.find((o) => o.panel === 'bo');
    };
    expect(await sanded()).toMatchObject({ highTenthUm: 60 });
    const before = (await shop.read('estimate.ofJob', { jobId: job.jobId }))[0]?.gainPpm ?? 0;
    expect(await sanded({ low: 70, high: 90 })).toMatchObject({ highTenthUm: 90 });
    const after = (await shop.read('estimate.ofJob', { jobId: job.jobId }))[0]?.gainPpm ?? 0;
    expect(after).toBeLessThan(before);
  });

  test('is refused back to front, and where depth says nothing of the damage', async () => {
    const back = seen('scratches', { low: 20, high: 10 });
    expect(await refusal('paint.addFindings', back)).toMatchObject({ code: 'DEPTH_REVERSED' });
    for (const defect of ['stoneChips', 'contamination'] as const)
      expect(await refusal('paint.addFindings', seen(defect, { low: 10, high: 20 }))).toEqual({
        code: 'DEPTH_NOT_OF_DEFECT',
        data: { defect },
      });
    expect((await bonnet())?.findings).toEqual([]);
  });

  test('that goes through all the paint, as µm typed for mil would, is asked about and nothing is saved', async () => {
    const deep = { low: 5 * 254, high: 12 * 254 };
    expect(await refusal('paint.addFindings', seen('scratches', deep))).toMatchObject({
      code: 'DEPTH_DOUBTFUL',
    });
    expect((await bonnet())?.findings).toEqual([]);
    shop.write('paint.addFindings', seen('scratches', deep, true));
    expect((await bonnet())?.findings).toHaveLength(1);
  });

  test('is there at the next visit, beside what that one finds', async () => {
    shop.write('paint.addFindings', seen('etching', { low: 33, high: 44 }));
    const { findingIds } = shop.write('paint.addFindings', seen('swirls'));
    shop.write('paint.removeFinding', { jobId: job.jobId, findingId: findingIds[0] ?? '' });
    const next = addJob(shop, 2, job.vehicleId);
    shop.write('paint.startInspection', { jobId: next.jobId });
    const view = await shop.read('paint.inspectionOf', { jobId: next.jobId });
    expect(view?.earlier[0]?.found).toEqual([
      {
        ...{ panel: 'bo', defect: 'etching', severity: 'moderate' },
        depth: { lowTenthUm: 33, highTenthUm: 44 },
      },
    ]);
  });

  test('stands on the job card', async () => {
    shop.write('paint.addFindings', seen('etching', { low: 33, high: 44 }));
    const card = await shop.read('bookings.card', { jobId: job.jobId });
    expect(card.panels.find((p) => p.panel === 'bo')?.findings).toEqual([
      { defect: 'etching', severity: 'moderate', depth: { lowTenthUm: 33, highTenthUm: 44 } },
    ]);
  });
});

test('a depth is written in the shop’s unit, in mil a shallow one with a digit more than film; nothing where it says nothing', () => {
  const moderate = { lowTenthUm: 5, highTenthUm: 12 };
  expect(depthText(PLAIN_MANNER, moderate)).toEqual({ value: '0.5–1.2', unit: 'µm' });
  expect(depthText({ ...PLAIN_MANNER, filmUnit: 'mil' }, moderate)).toEqual({
    value: '0.020–0.047',
    unit: 'mil',
  });
  expect(depthText({ ...PLAIN_MANNER, filmUnit: 'mil' }, { lowTenthUm: 33, highTenthUm: 91 })?.value).toBe(
    '0.13–0.36',
  );
  expect(depthText(PLAIN_MANNER, { lowTenthUm: 0, highTenthUm: 0 })).toBeNull();
});

test('the classes of damage in the film get deeper with each severity; the rest has none', () => {
  for (const defect of DEFECTS) {
    const ranges = SEVERITIES.map((severity) => depthOf(defect, severity));
    if (!hasDepth(defect)) expect(ranges.every((r) => r.high === 0)).toBe(true);
    else
      for (const [i, r] of ranges.entries()) {
        expect(r.low).toBeLessThan(r.high);
        expect(r.high).toBeGreaterThan(ranges[i - 1]?.high ?? 0);
        expect(r.low).toBeGreaterThan(ranges[i - 1]?.low ?? 0);
      }
  }
});
