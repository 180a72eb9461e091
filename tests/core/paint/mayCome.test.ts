import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { summarizeFilm } from '#core/paint/rules/film.ts';
import { type MayCase, mayComeOff, takenAt } from '#core/paint/rules/mayCome.ts';
import { paintSettings } from '#core/shared/settings/paint.ts';
import { openTestShop, type TestShop } from '#tests/helpers/shop.ts';
import { addDoneStage, addJob, type PaintCase } from './job.ts';

const RULES = paintSettings.parse({});
const film = (...um: readonly number[]) =>
  summarizeFilm(
    um.map((value) => ({ tenthUm: value * 10, point: null })),
    RULES,
  );
const NOTHING = { earlier: 0, here: 0, since: 0, spots: 0 };
const CASE: MayCase = {
  readable: true,
  before: film(104, 106, 108),
  after: null,
  taken: NOTHING,
  approved: false,
  floorTenthUm: 800,
  capTenthUm: 75,
};

describe('film that may still come off a panel', () => {
  test('is the life cap less what was taken, or what the lowest reading has above the floor', () => {
    expect(mayComeOff(CASE)).toEqual({ tenthUm: 75, why: 'read' });
    expect(mayComeOff({ ...CASE, taken: { ...NOTHING, earlier: 32 } })).toEqual({ tenthUm: 43, why: 'read' });
    // Lowest 91.0 less 2.94 is 88.06 µm: 8.06 above a floor of 80, and 1.06 above one of 87.
    const low = { ...CASE, before: film(91, 92, 93) };
    expect(mayComeOff(low).tenthUm).toBe(0);
    expect(mayComeOff({ ...low, approved: true, floorTenthUm: 870 }).tenthUm).toBe(10);
  });

  test('is nothing on a thin panel until a named person approves it', () => {
    const thin = { ...CASE, before: film(62, 58, 64) };
    expect(mayComeOff(thin)).toEqual({ tenthUm: 0, why: 'thin' });
    expect(mayComeOff({ ...thin, approved: true, floorTenthUm: 500 })).toEqual({ tenthUm: 50, why: 'read' });
    expect(mayComeOff({ ...CASE, after: film(85) })).toEqual({ tenthUm: 0, why: 'thin' });
  });

  test('has no figure where nobody has read the panel, too little, or paint that is not the car’s own', () => {
    expect(mayComeOff({ ...CASE, before: null })).toEqual({ tenthUm: null, why: 'notRead' });
    expect(mayComeOff({ ...CASE, before: film(104, 106) })).toEqual({ tenthUm: null, why: 'tooFew' });
    expect(mayComeOff({ ...CASE, before: film(240, 250, 260) })).toEqual({
      tenthUm: null,
      why: 'refinished',
    });
    expect(mayComeOff({ ...CASE, readable: false, before: null })).toEqual({
      tenthUm: null,
      why: 'cantRead',
    });
  });

  test('is less by the plan once work was done, until it is read again', () => {
    const worked = { ...CASE, taken: { ...NOTHING, here: 24 } };
    expect(mayComeOff(worked)).toEqual({ tenthUm: 51, why: 'planned' });
    expect(mayComeOff({ ...worked, after: film(102, 104, 106) })).toEqual({ tenthUm: 51, why: 'read' });
    expect(mayComeOff({ ...CASE, taken: { ...NOTHING, since: 90 } })).toEqual({
      tenthUm: 0,
      why: 'planned',
    });
  });

  test('is not less by a test spot until the panel is worked, then by whichever took more', () => {
    const tried = (here: number) => ({ ...CASE, taken: { ...NOTHING, here, spots: 6 } });
    expect(mayComeOff(tried(0))).toEqual({ tenthUm: 75, why: 'read' });
    expect(mayComeOff(tried(4))).toEqual({ tenthUm: 69, why: 'planned' });
    expect(mayComeOff(tried(10))).toEqual({ tenthUm: 65, why: 'planned' });
  });

  test('parts what was booked by visit', () => {
    const row = (jobId: string, bookedTenthUm: number) => ({
      ...{ jobId, panel: 'bo', bookedTenthUm },
      method: 'planned',
    });
    const rows = [
      row('a', 10),
      row('b', 20),
      row('c', 5),
      { ...row('a', 99), panel: 'ro' },
      { ...row('b', 4), method: 'spot' },
    ];
    expect(takenAt(rows, 'bo', 'b', new Set(['c']))).toEqual({
      ...{ earlier: 10, here: 20, since: 5, spots: 4 },
    });
    expect(takenAt(rows, 'bo', 'c')).toEqual({ earlier: 30, here: 5, since: 0, spots: 0 });
  });
});

describe('inspection, job card, film over its life and estimate', () => {
  let shop: TestShop;
  let job: PaintCase;
  beforeEach(() => {
    shop = openTestShop();
    job = addJob(shop);
    shop.write('paint.startInspection', { jobId: job.jobId });
    for (const panel of ['bo', 'lfd', 'ro'] as const)
      shop.write('paint.addFindings', {
        jobId: job.jobId,
        panels: [panel],
        defect: 'swirls',
        severity: 'heavy',
      });
    shop.write('paint.addReadings', { jobId: job.jobId, panel: 'bo', values: [110, 111, 112] });
    shop.write('paint.addReadings', { jobId: job.jobId, panel: 'lfd', values: [62, 58, 64] });
  });
  afterEach(() => shop.close());

  type Said = { readonly tenthUm: number | null; readonly why: string };
  async function said(panel: string): Promise<readonly Said[]> {
    const look = await shop.read('paint.inspectionOf', { jobId: job.jobId });
    const life = await shop.read('paint.filmHistory', { vehicleId: job.vehicleId });
    const card = await shop.read('bookings.card', { jobId: job.jobId });
    const onCard = card.panels.find((p) => p.panel === panel);
    const budgets = [
      look?.panels.find((p) => p.panel === panel)?.budget,
      life.budgets.find((b) => b.panel === panel)?.budget,
    ];
    return [
      ...budgets.map((b) => ({ tenthUm: b?.mayTenthUm ?? null, why: b?.why ?? '' })),
      { tenthUm: onCard?.mayTakeTenthUm ?? null, why: onCard?.why ?? '' },
    ];
  }
  const three = (one: Said): readonly Said[] => [one, one, one];
  async function limits(panel: string): Promise<readonly string[]> {
    const [newest] = await shop.read('estimate.ofJob', { jobId: job.jobId });
    return newest?.limits.filter((l) => l.panel === panel).map((l) => l.key) ?? [];
  }

  test('give one answer before work: read, thin and never read', async () => {
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
    expect(await said('bo')).toEqual(three({ tenthUm: 75, why: 'read' }));
    expect(await said('lfd')).toEqual(three({ tenthUm: 0, why: 'thin' }));
    expect(await said('ro')).toEqual(three({ tenthUm: null, why: 'notRead' }));
    const [newest] = await shop.read('estimate.ofJob', { jobId: job.jobId });
    expect(newest?.panels.find((p) => p.panel === 'lfd')).toMatchObject({
      level: 'washOnly',
      removalTenthUm: 0,
    });
    expect(await limits('lfd')).toEqual(['thinPanel', 'leftOut']);
    expect(await limits('ro')).toContain('notMeasured');
  });

  test('take off what a test spot took once its panel is worked, where that is more than the work', async () => {
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
    const spot = { jobId: job.jobId, panel: 'bo' as const, role: 'oneStep' as const, passes: 4, sections: 1 };
    shop.write('paint.recordTestSpot', { ...spot, seconds: 300, removedTenthUm: 70 });
    expect(await said('bo')).toEqual(three({ tenthUm: 75, why: 'read' }));
    addDoneStage(shop, job.jobId, 101, 'cut', 60, 66, ['bo']);
    expect(await said('bo')).toEqual(three({ tenthUm: 5, why: 'planned' }));
  });

  test('take off what a finished cut was planned to take until the panel is read again', async () => {
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
    const [newest] = await shop.read('estimate.ofJob', { jobId: job.jobId });
    const planned = newest?.panels.find((p) => p.panel === 'bo')?.removalTenthUm ?? 0;
    expect(planned).toBeGreaterThan(15);
    addDoneStage(shop, job.jobId, 101, 'cut', 60, 66, ['bo']);
    expect(await said('bo')).toEqual(three({ tenthUm: 75 - planned, why: 'planned' }));
    const after = {
      jobId: job.jobId,
      panel: 'bo' as const,
      values: [108, 109, 107],
      phase: 'after' as const,
    };
    shop.write('paint.addReadings', after);
    expect(new Set((await said('bo')).map((s) => s.why))).toEqual(new Set(['read']));
    expect(new Set((await said('bo')).map((s) => s.tenthUm)).size).toBe(1);
  });

  test('say of a plan made before the readings that the film does not allow it', async () => {
    const early = addJob(shop, 2);
    const { jobId } = early;
    shop.write('paint.startInspection', { jobId });
    shop.write('paint.addFindings', { jobId, panels: ['lfd'], defect: 'swirls', severity: 'heavy' });
    shop.write('estimate.fromInspection', { jobId, wish: 'twoStage' });
    shop.write('paint.addReadings', { jobId, panel: 'lfd', values: [62, 58, 64] });
    const look = await shop.read('paint.inspectionOf', { jobId });
    const door = look?.panels.find((p) => p.panel === 'lfd');
    expect(door).toMatchObject({ level: 'washOnly', held: 'thin', budget: { plannedTenthUm: 0 } });
    expect(door?.findings[0]).toMatchObject({ verdict: 'stays', reason: 'thin' });
  });
});
