import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { isTextKey } from '#core/shared/text/say.ts';
import { spotMoves } from '#core/shared/text/stageMoves.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { addDoneStage, addJob, type PaintCase } from '#tests/core/paint/job.ts';
import { openTestShop, TEST_NOW, type TestShop } from '#tests/helpers/shop.ts';

let shop: TestShop;
let job: PaintCase;
beforeEach(() => {
  shop = openTestShop();
  job = addJob(shop);
});
afterEach(() => shop.close());

async function newest(jobId = job.jobId) {
  const all = await shop.read('estimate.ofJob', { jobId });
  const first = all[0];
  if (!first) throw new Error('no estimate');
  return first;
}
async function refusal(name: string, input: unknown) {
  const reply = await shop.call(name, input);
  return reply.ok ? null : reply.error;
}
/** Swirls all over, one thin roof. */
function inspected(target = job): void {
  shop.write('paint.startInspection', { jobId: target.jobId });
  for (const panel of ['bo', 'ro', 'bl', 'lfd', 'rfd', 'lfw', 'rfw'] as PanelId[]) {
    shop.write('paint.addFindings', {
      jobId: target.jobId,
      panels: [panel],
      defect: 'swirls',
      severity: 'moderate',
    });
    const values = panel === 'ro' ? [86, 88, 90] : [112, 113, 114];
    shop.write('paint.addReadings', { jobId: target.jobId, panel, values });
  }
}

describe('a provisional estimate', () => {
  test('has a wide range and says that nobody has seen the paint', async () => {
    shop.write('estimate.provisional', { jobId: job.jobId, wish: 'twoStage', condition: 'worn' });
    const e = await newest();
    expect(e).toMatchObject({ version: 1, basis: 'provisional', inspectionId: null });
    expect(e.limits.map((l) => l.key)).toEqual(['unseen']);
    expect(e.stages[0]?.kind).toBe('inspection');
    expect(e.hours.p80Min / e.hours.p20Min).toBeGreaterThan(2);
    expect(e.price.totalMinor).toBe(e.price.labourMinor + e.price.materialsMinor);
    // 85.00 an hour on the mean minutes, to the minute that chargedMin is rounded to.
    expect(Math.abs(e.price.labourMinor - (e.price.chargedMin * 8500) / 60)).toBeLessThan(100);
  });

  test('is narrower once somebody has looked', async () => {
    shop.write('estimate.provisional', { jobId: job.jobId, wish: 'twoStage', condition: 'worn' });
    const before = await newest();
    inspected();
    shop.write('estimate.fromInspection', { jobId: job.jobId });
    const after = await newest();
    expect(after).toMatchObject({ version: 2, basis: 'inspected', wish: 'twoStage' });
    expect(after.hours.sigma).toBeLessThan(before.hours.sigma);
  });

  test('a preview needs no job and keeps nothing', async () => {
    const seen = await shop.read('estimate.preview', { body: 'hatch', wish: 'oneStage', condition: 'worn' });
    expect(seen.hours.p50Min).toBeGreaterThan(120);
    expect(seen.stair.steps.length).toBeGreaterThan(5);
    expect(shop.db.raw.prepare('SELECT count(*) FROM estimate').pluck().get()).toBe(0);
  });

  test('keeps a ceiling in money', async () => {
    shop.write('estimate.provisional', {
      jobId: job.jobId,
      wish: 'full',
      condition: 'worn',
      ceiling: { kind: 'money', value: 70_000 },
    });
    const e = await newest();
    expect(e.price.totalMinor).toBeLessThanOrEqual(70_000);
    expect(e.gainPpm).toBeGreaterThan(100_000);
    expect(
      await refusal('estimate.provisional', {
        jobId: job.jobId,
        wish: 'full',
        ceiling: { kind: 'money', value: 500 },
      }),
    ).toMatchObject({ code: 'NOTHING_FITS' });
  });
});

describe('an estimate from the inspection', () => {
  test('keeps the thin roof from the cut and lists it', async () => {
    inspected();
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
    const e = await newest();
    expect(e.panels.find((p) => p.panel === 'ro')?.level).not.toBe('twoStage');
    expect(e.panels.find((p) => p.panel === 'bo')?.level).toBe('twoStage');
    expect(e.limits.some((l) => l.key === 'thinPanel' && l.panel === 'ro')).toBe(true);
    expect(e.stages.find((s) => s.kind === 'cut')?.panels).not.toContain('ro');
  });

  test('is told of readings taken after it, and made again with them, levels kept where the film allows', async () => {
    inspected();
    const unread = { jobId: job.jobId, panel: 'lrd' as PanelId };
    const seen = { jobId: job.jobId, panels: [unread.panel] };
    shop.write('paint.addFindings', { ...seen, defect: 'swirls', severity: 'moderate' });
    const since = async () => (await shop.read('paint.inspectionOf', { jobId: job.jobId }))?.readSince;
    expect(await since()).toBe(0);
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
    const [first, now] = [await newest(), TEST_NOW + 60_000];
    shop.at(now);
    shop.write('paint.addReadings', { ...unread, values: [64, 63, 62] });
    expect(await since()).toBe(3);
    shop.at(now + 60_000);
    shop.write('estimate.again', { jobId: job.jobId });
    expect(await since()).toBe(0);
    const again = await newest();
    expect(again.version).toBe(first.version + 1);
    const level = (e: typeof first, panel: string) => e.panels.find((p) => p.panel === panel)?.level;
    expect([level(first, 'lrd'), level(again, 'lrd')]).toEqual(['twoStage', 'washOnly']);
    expect(level(again, 'rfd')).toBe(level(first, 'rfd'));
  });

  test('a cut on the thin roof needs a named person, who then stands on the quote', async () => {
    inspected();
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
    const cutRoof = { jobId: job.jobId, levels: [{ panel: 'ro' as const, level: 'twoStage' as const }] };
    expect(await refusal('estimate.choose', cutRoof)).toEqual({
      code: 'FILM_TOO_THIN',
      data: { panel: 'ro', level: 'twoStage' },
    });
    shop.write('paint.allowPanel', {
      jobId: job.jobId,
      panel: 'ro',
      person: 'Wren Calder',
      reason: 'owner insists',
    });
    shop.write('estimate.choose', cutRoof);
    const e = await newest();
    expect(e.limits.find((l) => l.key === 'override')).toMatchObject({
      panel: 'ro',
      data: { person: 'Wren Calder' },
    });
    expect(e.limits.find((l) => l.key === 'thinPanel')?.data).toEqual({ worked: 1 });
  });

  test('a panel named twice or not on the body is refused', async () => {
    inspected();
    shop.write('estimate.fromInspection', { jobId: job.jobId });
    const twice = [
      { panel: 'bo', level: 'oneStage' },
      { panel: 'bo', level: 'twoStage' },
    ];
    expect(await refusal('estimate.choose', { jobId: job.jobId, levels: twice })).toMatchObject({
      code: 'BAD_INPUT',
    });
  });

  test('versions are never changed', () => {
    shop.write('estimate.provisional', { jobId: job.jobId, wish: 'clean' });
    expect(() => shop.db.raw.exec('UPDATE estimate SET total_minor = 1')).toThrow(/kept as they were/);
    expect(() => shop.db.raw.exec('DELETE FROM estimate')).toThrow(/kept as they were/);
  });
});

describe('the stair', () => {
  test('rises, and the choice under a ceiling keeps it and is no worse than the last step below', async () => {
    inspected();
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
    const stair = await shop.read('estimate.bestWithin', {
      jobId: job.jobId,
      measure: 'money',
      ceiling: 60_000,
    });
    const gains = stair.steps.map((s) => s.gainPpm);
    expect([...gains].sort((a, b) => a - b)).toEqual(gains);
    expect(stair.choice?.totalMinor).toBeLessThanOrEqual(60_000);
    expect(stair.choice?.gainPpm).toBeGreaterThanOrEqual(stair.steps[stair.best ?? 0]?.gainPpm ?? 0);
  });
});

describe('a test spot', () => {
  test('slower than planned makes a new version with more hours and a narrower range', async () => {
    inspected();
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
    const before = await newest();
    const made = shop.write('paint.recordTestSpot', {
      jobId: job.jobId,
      panel: 'bo',
      role: 'heavyCut',
      passes: 6,
      seconds: 900,
    });
    const after = await newest();
    expect(after.id).toBe(made.estimateId);
    expect(after).toMatchObject({ version: 2, basis: 'testSpot' });
    expect(after.hours.p50Min).toBeGreaterThan(before.hours.p50Min);
    expect(after.hours.jobSigma).toBeLessThan(before.hours.jobSigma);
    const liquid = (e: typeof before) =>
      e.stages.find((s) => s.kind === 'cut')?.materials.find((m) => m.material === 'heavyCutCompound')
        ?.amount ?? 0;
    expect(liquid(after)).toBeGreaterThan(liquid(before));
    // The other stages follow by less than the tried one, and both are said.
    const factor = (of: string) =>
      after.factors.find((f) => f.what === 'testSpot' && f.of === of)?.factor ?? 0;
    expect(factor('')).toBeGreaterThan(1);
    expect(factor('cut')).toBeGreaterThan(factor('') * 1.1);
    const moved = spotMoves(PLAIN_MANNER, before, after, 'all');
    const hoursOf = (e: typeof before) =>
      ((e.stages.find((s) => s.kind === 'cut')?.p50Min ?? 0) / 60).toFixed(1);
    expect(spotMoves(PLAIN_MANNER, before, after, 'tried')).toEqual([
      `cut ${hoursOf(before)} → ${hoursOf(after)} h`,
    ]);
    expect(moved).toContain(`cut ${hoursOf(before)} → ${hoursOf(after)} h`);
    expect(moved.length).toBeGreaterThan(1);
    const otherwise = { ...before, asked: { ...before.asked, interior: true } };
    expect(spotMoves(PLAIN_MANNER, otherwise, after, 'all')).toEqual([]);
    expect(spotMoves(PLAIN_MANNER, before, before, 'all')).toEqual([]);
    const level = (e: typeof before, to: 'leave' | 'threeStage') => ({
      ...e,
      panels: e.panels.map((p, i) => (i === 0 ? { ...p, level: to } : p)),
    });
    // A panel that the spot lowered is the spot's doing, one that goes further is not.
    expect(spotMoves(PLAIN_MANNER, before, level(after, 'leave'), 'all')).toEqual(moved);
    expect(spotMoves(PLAIN_MANNER, before, level(after, 'threeStage'), 'all')).toEqual([]);
    expect((await shop.read('estimate.ofJob', { jobId: job.jobId }))[1]).toEqual(before);
  });
});

test('a test spot moves what is to be done; finished stages stand with what they took, in hours and in price', async () => {
  inspected();
  shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
  const before = await newest();
  const of = (e: typeof before, kind: string) => e.stages.find((s) => s.kind === kind);
  const done = ['wash', 'decontaminate', 'clay'] as const;
  shop.db.raw
    .prepare("UPDATE job_stage SET state = 'dropped' WHERE kind IN ('wash', 'decontaminate', 'clay')")
    .run();
  done.forEach((kind, i) => {
    addDoneStage(shop, job.jobId, 50 + i, kind, of(before, kind)?.estimatedMin ?? 0, 30 + i);
  });
  shop.write('paint.recordTestSpot', {
    ...{ jobId: job.jobId, panel: 'bo', role: 'heavyCut' },
    ...{ passes: 6, seconds: 900 },
  });
  const after = await newest();
  done.forEach((kind, i) => {
    expect(of(after, kind)).toMatchObject({ p20Min: 30 + i, p50Min: 30 + i, p95Min: 30 + i, sigma: 0 });
  });
  expect(of(after, 'cut')?.p50Min).toBeGreaterThan(of(before, 'cut')?.p50Min ?? 0);
  const mean = (e: typeof before) =>
    e.stages.filter((s) => s.crew > 0).reduce((sum, s) => sum + Math.exp(s.mu + s.sigma ** 2 / 2), 0);
  expect(after.price.chargedMin).toBe(Math.round(mean(after)));
  // The stair is exact with finished stages too: its choice costs what the plan of the same levels does.
  const best = { jobId: job.jobId, measure: 'money' as const, ceiling: after.price.totalMinor + 2 };
  const fits = await shop.read('estimate.bestWithin', best);
  expect(fits.choice?.totalMinor).toBeLessThanOrEqual(best.ceiling);
  expect(fits.above).toBeNull();
  const less = await shop.read('estimate.bestWithin', { ...best, ceiling: after.price.totalMinor - 500 });
  expect(less.above).toBe(500);
  // The same again is no version of its own.
  shop.write('estimate.fromInspection', { jobId: job.jobId });
  const { version } = await newest();
  shop.write('estimate.fromInspection', { jobId: job.jobId });
  expect((await newest()).version).toBe(version);
});

test('a test spot that would take a panel past its film limit lowers that panel, and the spot is kept', async () => {
  inspected();
  for (let i = 0; i < 2; i += 1)
    shop.write('paint.addFindings', {
      jobId: job.jobId,
      panels: ['bo'],
      defect: 'swirls',
      severity: 'heavy',
    });
  shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
  expect((await newest()).panels.find((p) => p.panel === 'bo')?.level).toBe('twoStage');
  const spot = {
    jobId: job.jobId,
    panel: 'bo' as const,
    role: 'heavyCut' as const,
    passes: 30,
    seconds: 2400,
  };
  shop.write('paint.recordTestSpot', spot);
  const e = await newest();
  expect(e.basis).toBe('testSpot');
  expect(e.panels.find((p) => p.panel === 'bo')?.level).toBe('oneStage');
  for (const p of e.panels) expect(p.removalTenthUm).toBeLessThanOrEqual(75);
});

describe('learning', () => {
  test('the next estimate of a like job rests on finished work and shows from what', async () => {
    shop.write('estimate.provisional', { jobId: job.jobId, wish: 'twoStage', condition: 'worn' });
    const before = await newest();
    for (let n = 10; n < 30; n += 1) {
      const past = addJob(shop, n);
      addDoneStage(shop, past.jobId, 1, 'cut', 100, 140);
      addDoneStage(shop, past.jobId, 2, 'refine', 100, 130);
      addDoneStage(shop, past.jobId, 3, 'wash', 40, 41);
    }
    const next = addJob(shop, 50);
    shop.write('estimate.provisional', { jobId: next.jobId, wish: 'twoStage', condition: 'worn' });
    const after = await newest(next.jobId);
    expect(after.hours.p50Min).toBeGreaterThan(before.hours.p50Min * 1.1);
    const cut = after.factors.find((f) => f.what === 'stage' && f.of === 'cut');
    expect(cut?.n).toBe(20);
    expect(cut?.factor).toBeGreaterThan(1.02);
    const learned = await shop.read('estimate.learning', { rows: 5 });
    expect(learned).toMatchObject({ stagesSeen: 60, jobsSeen: 20, withinP80Ppm: null });
    expect(learned.rows).toHaveLength(5);
  });
});

test('a figure explains itself: inputs, rule and source', async () => {
  shop.write('estimate.provisional', { jobId: job.jobId, wish: 'twoStage' });
  const e = await newest();
  const why = await shop.read('estimate.explain', { estimateId: e.id, figure: 'price' });
  expect(why).toMatchObject({ rule: 'why.price', source: 'source.price' });
  expect(why.inputs.find((i) => i.name === 'why.input.labour')?.value).toBe(e.price.labourMinor);
  for (const figure of ['hours', 'gain', 'removal', 'safe'] as const) {
    const said = await shop.read('estimate.explain', { estimateId: e.id, figure });
    const keys = [said.rule, said.source, ...said.inputs.map((i) => i.name)];
    expect(keys.filter((key) => !isTextKey(key))).toEqual([]);
    expect(said.inputs.length).toBeGreaterThan(2);
  }
});

test('prices without tax take the tax out of a ceiling that is said with it', async () => {
  shop.db.raw.prepare('UPDATE shop SET settings = \'{"billing":{"pricesIncludeTax":false}}\'').run();
  shop.write('estimate.provisional', {
    jobId: job.jobId,
    wish: 'full',
    condition: 'worn',
    ceiling: { kind: 'money', value: 70_000 },
  });
  const e = await newest();
  expect(e.price.taxIncluded).toBe(false);
  expect(e.price.totalMinor).toBeLessThanOrEqual(58_823); // 700.00 / 1.19
});
