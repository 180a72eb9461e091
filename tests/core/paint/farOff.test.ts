import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { farOff } from '#core/paint/rules/farOff.ts';
import { openTestShop, type TestShop } from '#tests/helpers/shop.ts';
import { addDoneStage, addJob, type PaintCase } from './job.ts';

describe('a reading far off', () => {
  test('lies more than three spreads off the panel’s others, never less than a panel’s own spread', () => {
    // Three spreads of √(5.0² + 1.5²) = 5.22 µm are 15.66 µm round a mean of 100.0.
    expect(farOff([1156], [990, 1000, 1010], [], 15)).toBeNull();
    expect(farOff([1157], [990, 1000, 1010], [], 15)).toEqual({ tenthUm: 1157, why: 'far', against: 1000 });
    expect(farOff([843], [990, 1000, 1010], [], 15)).toMatchObject({ why: 'far' });
    // Readings that scatter by 20.0 µm of themselves leave room for 60.0.
    expect(farOff([1500], [800, 1000, 1200], [], 15)).toBeNull();
  });

  test('is found among those typed at once, and never among fewer than four', () => {
    expect(farOff([1000, 1010, 990, 1400], [], [], 15)).toMatchObject({ tenthUm: 1400, why: 'far' });
    expect(farOff([1000, 1010, 1400], [], [], 15)).toBeNull();
  });

  test('after work lies above all before by more than the gauge can explain', () => {
    // 1.96·√2·1.5 µm = 4.16 µm above the highest before.
    expect(farOff([1061], [], [1000, 1020], 15)).toBeNull();
    expect(farOff([1062], [], [1000, 1020], 15)).toEqual({ tenthUm: 1062, why: 'above', against: 1020 });
    expect(farOff([980], [], [1000, 1020], 15)).toBeNull();
  });
});

describe('such a reading', () => {
  let shop: TestShop;
  let job: PaintCase;
  beforeEach(() => {
    shop = openTestShop();
    job = addJob(shop);
    shop.write('paint.startInspection', { jobId: job.jobId });
    shop.write('paint.addReadings', { jobId: job.jobId, panel: 'ro', values: [98, 100, 102] });
  });
  afterEach(() => shop.close());
  const reply = (name: string, input: unknown) => shop.call(name, input);
  const readings = async () => {
    const view = await shop.read('paint.inspectionOf', { jobId: job.jobId });
    return view?.panels.find((p) => p.panel === 'ro')?.readings.length;
  };

  test('is asked about, not taken in; said to be right, it is', async () => {
    const far = { jobId: job.jobId, panel: 'ro' as const, values: [140, 141, 139] };
    expect(await reply('paint.addReadings', far)).toMatchObject({
      ok: false,
      error: {
        code: 'FILM_FAR_OFF',
        data: { panel: 'ro', value: 140, against: 100, unit: 'um', why: 'far' },
      },
    });
    expect(await readings()).toBe(3);
    expect(shop.write('paint.addReadings', { ...far, right: true })).toEqual({ added: 3 });
  });

  test('is asked about in a gauge’s text as well, and after work when it is above all before', async () => {
    const text = 'panel,reading\nroof,108';
    expect(await reply('paint.pasteReadings', { jobId: job.jobId, text, phase: 'after' })).toMatchObject({
      error: { code: 'FILM_FAR_OFF', data: { why: 'above', against: 102 } },
    });
    expect(await readings()).toBe(3);
    expect(
      shop.write('paint.pasteReadings', { jobId: job.jobId, text, phase: 'after', right: true }),
    ).toEqual({ added: 1 });
  });

  test('readings belong to after work once a machine stage has begun', async () => {
    const usual = async () => (await shop.read('paint.inspectionOf', { jobId: job.jobId }))?.usualPhase;
    expect(await usual()).toBe('before');
    addDoneStage(shop, job.jobId, 1, 'wash', 60, 50);
    expect(await usual()).toBe('before');
    addDoneStage(shop, job.jobId, 2, 'cut', 60, 50, ['bo']);
    expect(await usual()).toBe('after');
  });
});
