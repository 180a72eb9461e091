import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openTestShop, type TestShop } from '#tests/helpers/shop.ts';
import { addDoneStage, addJob, type PaintCase } from './job.ts';

let shop: TestShop;
let job: PaintCase;
beforeEach(() => {
  shop = openTestShop();
  job = addJob(shop);
});
afterEach(() => shop.close());

function look(): void {
  shop.write('paint.startInspection', { jobId: job.jobId });
}
async function panel(id: string) {
  const view = await shop.read('paint.inspectionOf', { jobId: job.jobId });
  const found = view?.panels.find((p) => p.panel === id);
  if (!found) throw new Error(`no panel ${id}`);
  return found;
}
async function refusal(name: string, input: unknown) {
  const reply = await shop.call(name, input);
  return reply.ok ? null : reply.error;
}

describe('an inspection', () => {
  test('is null before anybody looked, and opened once however often it is started', async () => {
    expect(await shop.read('paint.inspectionOf', { jobId: job.jobId })).toBeNull();
    const first = shop.write('paint.startInspection', { jobId: job.jobId });
    expect(shop.write('paint.startInspection', { jobId: job.jobId })).toEqual(first);
    const view = await shop.read('paint.inspectionOf', { jobId: job.jobId });
    expect(view?.panels).toHaveLength(23);
    expect(view?.by).toBe('The owner');
  });

  test('the same finding goes on several panels in one, on all of them or on none', async () => {
    look();
    const seen = { jobId: job.jobId, defect: 'swirls', severity: 'heavy' } as const;
    const { findingIds } = shop.write('paint.addFindings', { ...seen, panels: ['bo', 'ro', 'bo'] });
    expect(findingIds).toHaveLength(2);
    const on = async (id: string) => (await panel(id)).findings.map((f) => `${f.defect} ${f.severity}`);
    expect([await on('bo'), await on('ro'), await on('bl')]).toEqual([
      ['swirls heavy'],
      ['swirls heavy'],
      [],
    ]);
    shop.db.raw.prepare("UPDATE vehicle SET body = 'coupe'").run();
    const onCoupe = { ...seen, panels: ['ro', 'rrd'] as const };
    expect(await refusal('paint.addFindings', onCoupe)).toMatchObject({ code: 'PANEL_NOT_ON_BODY' });
    expect(await on('ro')).toHaveLength(1);
  });

  test('three readings give mean, scatter, interval and what may safely come off', async () => {
    look();
    shop.write('paint.addReadings', { jobId: job.jobId, panel: 'lfd', values: [104, 108, 106] });
    const door = await panel('lfd');
    expect(door.film).toMatchObject({
      n: 3,
      meanTenthUm: 1060,
      sTenthUm: 20,
      minTenthUm: 1040,
      maxTenthUm: 1080,
    });
    // t(.975, 2)·2/√3 = 4.968 µm and 1.96·1.5 = 2.94 µm in quadrature: 5.773 µm
    expect(door.film?.interval).toEqual({ lowTenthUm: 1002, highTenthUm: 1118 });
    // Lowest reading 104.0 less 2.94 is 101.06 µm: 21.06 above the floor of 80, so the life cap of 7.5 rules.
    expect(door.film?.floorTenthUm).toBe(1011);
    expect(door.safeTenthUm).toBe(75);
  });

  test('findings carry a depth range and a verdict, and can be taken back', async () => {
    look();
    const { findingIds } = shop.write('paint.addFindings', {
      jobId: job.jobId,
      panels: ['lfd'],
      defect: 'etching',
      severity: 'heavy',
    });
    expect((await panel('lfd')).findings[0]).toMatchObject({
      defect: 'etching',
      verdict: 'stays',
      reason: 'noPlan',
    });
    const findingId = findingIds[0] ?? '';
    shop.write('paint.removeFinding', { jobId: job.jobId, findingId });
    expect((await panel('lfd')).findings).toEqual([]);
    expect(await refusal('paint.removeFinding', { jobId: job.jobId, findingId })).toMatchObject({
      code: 'NOT_FOUND',
    });
  });

  test('a plastic bumper is not read; said to be steel, it is', async () => {
    look();
    const readings = { jobId: job.jobId, panel: 'fb' as const, values: [110, 111, 112] };
    expect(await refusal('paint.addReadings', readings)).toEqual({
      code: 'SUBSTRATE_UNREADABLE',
      data: { panel: 'fb', body: 'saloon', substrate: 'plastic', row: 0 },
    });
    shop.write('paint.setSubstrate', { jobId: job.jobId, panel: 'fb', substrate: 'steel' });
    expect(shop.write('paint.addReadings', readings)).toEqual({ added: 3 });
  });

  test('a value that looks like mil is asked about and nothing is saved', async () => {
    look();
    const mil = { jobId: job.jobId, panel: 'bo', values: [104, 4.2] };
    expect(await refusal('paint.addReadings', mil)).toMatchObject({ code: 'FILM_UNIT_DOUBTFUL' });
    expect((await panel('bo')).readings).toEqual([]);
    shop.write('paint.addReadings', { jobId: job.jobId, panel: 'bo', values: [4.2], unit: 'mil' });
    expect((await panel('bo')).readings[0]?.tenthUm).toBe(1067); // 4.2 × 25.4 = 106.68 µm
  });

  test('pasted text is taken in whole or not at all, panels also by name', async () => {
    look();
    const bad = { jobId: job.jobId, text: 'panel,reading\nbonnet,105\nwhale,104' };
    expect(await refusal('paint.pasteReadings', bad)).toEqual({
      code: 'READING_PANEL',
      data: { row: 3, text: 'whale', body: 'saloon', panels: expect.arrayContaining(['bo', 'lfd']) },
    });
    expect((await panel('bo')).readings).toEqual([]);
    const bumper = { jobId: job.jobId, text: 'panel,reading\nbonnet,105\nfront bumper,104' };
    expect(await refusal('paint.pasteReadings', bumper)).toMatchObject({
      code: 'SUBSTRATE_UNREADABLE',
      data: { panel: 'fb', row: 3 },
    });
    expect((await panel('bo')).readings).toEqual([]);
    const good = { jobId: job.jobId, text: 'panel,reading\nbonnet,105\nBoot lid,104' };
    expect(shop.write('paint.pasteReadings', good)).toEqual({ added: 2 });
    expect((await panel('bl')).readings).toHaveLength(1);
  });

  test('a gauge’s text in mil is asked about with its row, and taken in once it is said to be mil', async () => {
    look();
    const mil = { jobId: job.jobId, text: 'panel,reading\nbonnet,4.1\nroof,4.2' };
    expect(await refusal('paint.pasteReadings', mil)).toMatchObject({
      code: 'FILM_UNIT_DOUBTFUL',
      data: { row: 2, other: 'mil' },
    });
    shop.write('paint.pasteReadings', { ...mil, unit: 'mil', sure: true });
    expect((await panel('ro')).readings[0]?.tenthUm).toBe(1067);
  });

  test('readings before there is an inspection are refused with the next step', async () => {
    expect(
      await refusal('paint.addReadings', { jobId: job.jobId, panel: 'bo', values: [100] }),
    ).toMatchObject({
      code: 'NO_INSPECTION',
    });
  });
});

describe('film over a vehicle’s life', () => {
  test('readings after work book the larger of plan and what is shown, and the next visit has less left', async () => {
    look();
    shop.write('paint.addFindings', {
      jobId: job.jobId,
      panels: ['lfd'],
      defect: 'swirls',
      severity: 'moderate',
    });
    shop.write('paint.addReadings', { jobId: job.jobId, panel: 'lfd', values: [110, 111, 112] });
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
    const planned = (await panel('lfd')).budget.plannedTenthUm;
    expect(planned).toBeGreaterThan(15);
    shop.write('paint.addReadings', {
      jobId: job.jobId,
      panel: 'lfd',
      values: [106, 107, 108],
      phase: 'after',
    });
    const history = await shop.read('paint.filmHistory', { vehicleId: job.vehicleId });
    const removal = history.visits[0]?.panels.find((p) => p.panel === 'lfd')?.removal;
    // 4.0 µm between means; Welch half width t(.975, 4)·√(1/3 + 1/3) = 2.27 µm: shown.
    expect(removal).toMatchObject({ shownTenthUm: 40, shown: true, method: 'welch', bookedTenthUm: 40 });
    const next = addJob(shop, 2, job.vehicleId);
    shop.write('paint.startInspection', { jobId: next.jobId });
    const view = await shop.read('paint.inspectionOf', { jobId: next.jobId });
    const door = view?.panels.find((p) => p.panel === 'lfd');
    expect(door?.budget).toMatchObject({
      takenTenthUm: 40,
      mayTenthUm: null,
      why: 'notRead',
      historyKnown: false,
    });
    expect(view?.earlier).toHaveLength(1);
  });

  test('readings after work that are taken back leave the plan booked', async () => {
    look();
    shop.write('paint.addFindings', {
      jobId: job.jobId,
      panels: ['lfd'],
      defect: 'swirls',
      severity: 'moderate',
    });
    shop.write('paint.addReadings', { jobId: job.jobId, panel: 'lfd', values: [110, 111, 112] });
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
    shop.write('paint.addReadings', {
      jobId: job.jobId,
      panel: 'lfd',
      values: [106, 107, 108],
      phase: 'after',
    });
    for (const r of (await panel('lfd')).readings.filter((x) => x.phase === 'after'))
      shop.write('paint.removeReading', { jobId: job.jobId, readingId: r.id });
    const history = await shop.read('paint.filmHistory', { vehicleId: job.vehicleId });
    const removal = history.visits[0]?.panels.find((p) => p.panel === 'lfd')?.removal;
    expect(removal?.method).toBe('planned');
    expect(removal?.bookedTenthUm).toBe(removal?.plannedTenthUm);
  });

  test('a machine stage done and never read counts with its plan', async () => {
    look();
    shop.write('paint.addFindings', {
      jobId: job.jobId,
      panels: ['bo'],
      defect: 'swirls',
      severity: 'moderate',
    });
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
    addDoneStage(shop, job.jobId, 101, 'cut', 60, 66, ['bo']);
    const history = await shop.read('paint.filmHistory', { vehicleId: job.vehicleId });
    const bonnet = history.budgets.find((b) => b.panel === 'bo')?.budget;
    expect(bonnet?.takenTenthUm).toBeGreaterThan(15);
    expect(history.visits[0]?.panels.find((p) => p.panel === 'bo')?.removal?.method).toBe('planned');
  });

  test('a cut that was stopped half way counts for the panels ticked off, or for all where none was', async () => {
    look();
    for (const on of ['bo', 'ro'] as const)
      shop.write('paint.addFindings', {
        jobId: job.jobId,
        panels: [on],
        defect: 'swirls',
        severity: 'moderate',
      });
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
    addDoneStage(shop, job.jobId, 101, 'cut', 60, 66, ['bo', 'ro']);
    shop.db.raw.prepare("UPDATE job_stage SET state = 'dropped', done_ms = NULL, started_ms = 1").run();
    const taken = async (on: string): Promise<number> => {
      const history = await shop.read('paint.filmHistory', { vehicleId: job.vehicleId });
      return history.budgets.find((b) => b.panel === on)?.budget.takenTenthUm ?? 0;
    };
    expect(await taken('bo')).toBeGreaterThan(15);
    expect(await taken('ro')).toBeGreaterThan(15);
    shop.db.raw
      .prepare("INSERT INTO stage_panel (stage_id, panel, done_ms) SELECT id, 'bo', 1 FROM job_stage")
      .run();
    expect(await taken('bo')).toBeGreaterThan(15);
    expect(await taken('ro')).toBe(0);
  });

  test('the database itself never lets the budget grow back', () => {
    expect(() =>
      shop.db.raw
        .prepare(
          `INSERT INTO panel_removal (job_id, panel, planned_tenth_um, shown, method, booked_tenth_um, at_ms)
           VALUES (?, 'bo', 24, 0, 'planned', 3, 0)`,
        )
        .run(job.jobId),
    ).toThrow(/CHECK/);
  });
});
