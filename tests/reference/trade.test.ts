import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { StageId } from '#core/shared/ids.ts';
import { say } from '#core/shared/text/say.ts';
import type { StageView } from '#core/shared/views/bookings.ts';
import type { Felt } from '#core/shared/views/paint.ts';
import type { Material, PanelId, StageKind } from '#core/shared/vocabulary.ts';
import { addJob, type PaintCase } from '#tests/core/paint/job.ts';
import { CAR_RECORD, planned, unclayed } from '#tests/helpers/bookedJob.ts';
import { openTestShop, type TestShop } from '#tests/helpers/shop.ts';

/** What everybody in the trade knows. Common practice, no source: each is asserted by what comes of it at the door. */
let shop: TestShop;
let job: PaintCase;
beforeEach(() => {
  shop = openTestShop();
  job = addJob(shop);
  shop.write('paint.startInspection', { jobId: job.jobId });
});
afterEach(() => shop.close());

async function refusedWith(name: string, input: unknown): Promise<string | null> {
  const reply = await shop.call(name, input);
  return reply.ok ? null : reply.error.code;
}
async function newest() {
  const [e] = await shop.read('estimate.ofJob', { jobId: job.jobId });
  if (!e) throw new Error('no estimate');
  return e;
}
async function materialOf(kind: StageKind, material: Material): Promise<number> {
  const stage = (await newest()).stages.find((s) => s.kind === kind);
  return stage?.materials.find((m) => m.material === material)?.amount ?? 0;
}
function swirlsOn(...panels: readonly PanelId[]): void {
  for (const panel of panels)
    shop.write('paint.addFindings', {
      jobId: job.jobId,
      panels: [panel],
      defect: 'swirls',
      severity: 'moderate',
    });
}
function estimate(): void {
  shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
}

describe('clay (common practice, no source)', () => {
  /** About a quarter of a bar of some 200 g. */
  const PIECE_MG = 50_000;
  async function pieces(felt: Felt, ...panels: readonly PanelId[]): Promise<number> {
    for (const panel of panels) shop.write('paint.feltContamination', { jobId: job.jobId, panel, felt });
    swirlsOn('bo');
    estimate();
    const mg = await materialOf('clay', 'clayBar');
    expect(mg % PIECE_MG).toBe(0);
    return mg / PIECE_MG;
  }

  test('a clean car takes one piece, and a car or more', async () => {
    expect(await pieces('none', 'bo')).toBe(1);
  });

  test('a badly contaminated bonnet can use up a piece that otherwise does a car', async () => {
    expect(await pieces('heavy', 'bo')).toBeGreaterThanOrEqual(2);
  });

  test('a heavy car is planned with several pieces', async () => {
    const all: readonly PanelId[] = [
      'bo',
      'ro',
      'bl',
      'lfw',
      'rfw',
      'lfd',
      'rfd',
      'lrd',
      'rrd',
      'lrq',
      'rrq',
    ];
    expect(await pieces('heavy', ...all)).toBeGreaterThanOrEqual(4);
  });

  test('the card says that a dropped piece is thrown away and how much is worked with at once', async () => {
    shop.write('bookings.setStages', { jobId: job.jobId, basis: 'inspected', stages: [planned('clay')] });
    const card = await shop.read('bookings.card', { jobId: job.jobId });
    const said = card.stages.flatMap((s) => s.how.cautions.map((c) => say('en', `card.caution.${c}`)));
    expect(said.join(' ')).toMatch(/fell is thrown away.*quarter of a bar/i);
  });
});

describe('pads and liquid (common practice, no source; the drop from memory)', () => {
  test('about five drops, 1 ml, load a pad for each section of half a metre', async () => {
    swirlsOn('bo');
    estimate();
    const bonnet = (await newest()).panels.find((p) => p.panel === 'bo');
    const sections = (bonnet?.areaCm2 ?? 0) / 2500;
    const ml = (await materialOf('cut', 'heavyCutCompound')) / 1000;
    expect(ml / sections).toBeGreaterThan(0.9);
    expect(ml / sections).toBeLessThan(2.5);
  });
});

describe('the rotary (common practice, no source)', () => {
  test('product is spread at the lowest speed, then it cuts at about 1,400; it kicks when started on the paint', async () => {
    swirlsOn('bo');
    estimate();
    const card = await shop.read('bookings.card', { jobId: job.jobId });
    const cut = card.stages.find((s) => s.kind === 'cut')?.how;
    expect(cut).toMatchObject({ machine: 'rotary', spread: 'lowestSpeed' });
    expect(Math.abs((cut?.rpm ?? 0) - 1400)).toBeLessThanOrEqual(100);
    const said = cut?.cautions.map((c) => say('en', `card.caution.${c}`)).join(' ');
    expect(said).toMatch(/never start a rotary on the paint.*kicks.*hologram/i);
  });
});

describe('the order of work (common practice, no source)', () => {
  let stages: ReadonlyMap<StageKind, StageId>;
  beforeEach(async () => {
    const kinds = ['decontaminate', 'clay', 'cut', 'refine'] as const;
    const plans = kinds.map((kind) => planned(kind, ['bo', 'ro']));
    shop.write('bookings.setStages', { jobId: job.jobId, basis: 'agreed', stages: plans });
    shop.write('bookings.arrive', { jobId: job.jobId, ...CAR_RECORD });
    const view = await shop.read('bookings.job', { jobId: job.jobId });
    stages = new Map(view.stages.map((s: StageView) => [s.kind, s.id]));
  });
  const id = (kind: StageKind): StageId => stages.get(kind) as StageId;
  const start = (kind: StageKind) => refusedWith('bookings.startStage', { stageId: id(kind) });
  function done(kind: StageKind): void {
    shop.write('bookings.startStage', { stageId: id(kind) });
    shop.write('bookings.finishStage', { stageId: id(kind), draws: [] });
  }

  test('no machine before decontaminate and clay, no refining before the cut', async () => {
    expect(await start('cut')).toBe('STAGE_ORDER');
    done('decontaminate');
    expect(await start('cut')).toBe('STAGE_ORDER');
    done('clay');
    expect(await start('refine')).toBe('STAGE_ORDER');
    expect(await start('cut')).toBeNull();
  });

  test('a named person may set that aside, with a reason that is kept', async () => {
    const setAside = unclayed('clayed at the last visit');
    shop.write('bookings.startStage', { stageId: id('cut'), setAside });
    const { overrides } = await shop.read('bookings.job', { jobId: job.jobId });
    expect(overrides.map((o) => [o.by, o.reason])).toEqual([
      ['The owner', 'clayed at the last visit'],
      ['The owner', 'clayed at the last visit'],
    ]);
  });

  test('a test spot is allowed on a clayed panel while the rest of the car waits', async () => {
    const spot = { jobId: job.jobId, role: 'heavyCut', passes: 4, seconds: 400 } as const;
    done('decontaminate');
    expect(await refusedWith('paint.recordTestSpot', { ...spot, panel: 'bo' })).toBe('TEST_SPOT_UNCLAYED');
    shop.write('bookings.startStage', { stageId: id('clay') });
    shop.write('bookings.panelDone', { stageId: id('clay'), panel: 'bo', done: true });
    expect(await refusedWith('paint.recordTestSpot', { ...spot, panel: 'bo' })).toBeNull();
    expect(await refusedWith('paint.recordTestSpot', { ...spot, panel: 'ro' })).toBe('TEST_SPOT_UNCLAYED');
  });
});

describe('etched pits (common practice, no source)', () => {
  test('deeper than may safely come off they stay, and the quote says what they would take', async () => {
    shop.write('paint.addReadings', { jobId: job.jobId, panel: 'bo', values: [112, 113, 114] });
    const pits = { defect: 'etching', severity: 'heavy', depth: { low: 80, high: 150 } } as const;
    shop.write('paint.addFindings', { jobId: job.jobId, panels: ['bo'], ...pits });
    estimate();
    const view = await shop.read('paint.inspectionOf', { jobId: job.jobId });
    const bonnet = view?.panels.find((p) => p.panel === 'bo');
    expect(bonnet?.findings[0]).toMatchObject({ verdict: 'stays', reason: 'deeperThanSafe' });
    const { id: estimateId } = await newest();
    const made = { jobId: job.jobId, estimateIds: [estimateId] };
    const { quoteId } = shop.write('billing.quoteEstimates', made);
    const quote = await shop.read('billing.readQuote', { quoteId });
    const limits = quote.options[0]?.limits ?? [];
    expect(limits.map((l) => [l.key, l.panel])).toContainEqual(['staysEtched', 'bo']);
    expect(say('en', 'limit.staysEtched', { panel: 'bonnet' })).toMatch(/wet sanding or a respray/);
  });
});
