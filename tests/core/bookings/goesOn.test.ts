import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { StageId } from '#core/shared/ids.ts';
import type { EpochMs } from '#core/shared/units.ts';
import { stagesDone, wasStopped } from '#core/views/billingWork.ts';
import { CAR_RECORD, jobWith, planned, unclayed } from '#tests/helpers/bookedJob.ts';
import { openTestShop, TEST_NOW, type TestShop } from '#tests/helpers/shop.ts';

const MIN = 60_000;
let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

/** A car whose cut was stopped after one of its two panels. */
function stopped() {
  const { jobId, stageIds } = jobWith(shop, ['decontaminate', 'clay', 'cut']);
  shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
  for (const [i, stageId] of stageIds.entries()) {
    shop.at(TEST_NOW + i * 60 * MIN);
    shop.write('bookings.startStage', { stageId });
    shop.at(TEST_NOW + i * 60 * MIN + 30 * MIN);
    if (i < 2) shop.write('bookings.finishStage', { stageId, draws: [] });
    else shop.write('bookings.panelDone', { stageId, panel: 'bo', done: true });
  }
  shop.write('bookings.stopHalfWay', { jobId, reason: 'owner needs the car' });
  return { jobId, stageIds };
}

describe('a job that goes on after it was stopped half way', () => {
  it('is no longer billed half way: a new agreement counts, and its shares are void', async () => {
    const { jobId } = stopped();
    expect(wasStopped(shop.db, jobId)).toBe(true);
    shop.write('bookings.setStages', { jobId, basis: 'agreed', stages: [planned('cut'), planned('refine')] });
    const job = await shop.read('bookings.job', { jobId });
    expect([job.state, job.stoppedHalfWay, job.endReason, job.readyMs]).toEqual(['inWork', false, '', null]);
    expect(wasStopped(shop.db, jobId)).toBe(false);
    expect(stagesDone(shop.db, jobId).map((s) => [s.kind, s.donePpm])).toEqual([
      ['decontaminate', 1_000_000],
      ['clay', 1_000_000],
      ['cut', 0],
      ['cut', 0],
      ['refine', 0],
    ]);
  });

  it('stays stopped when the new agreement is only about what was done', async () => {
    const { jobId } = stopped();
    shop.write('bookings.setStages', { jobId, basis: 'agreed', stages: [planned('clay')] });
    expect((await shop.read('bookings.job', { jobId })).stoppedHalfWay).toBe(true);
  });

  it('stays stopped when somebody merely estimates it anew', async () => {
    const { jobId } = stopped();
    shop.db.raw.prepare("UPDATE job SET plan_basis = 'inspected' WHERE id = ?").run(jobId);
    shop.write('estimate.provisional', { jobId, wish: 'twoStage', condition: 'worn' });
    const job = await shop.read('bookings.job', { jobId });
    expect([job.state, job.stoppedHalfWay]).toEqual(['ready', true]);
  });
});

describe('time typed in on a car that counts as ready', () => {
  it('puts it back in work, and it is no longer ready since then', async () => {
    const { jobId, stageIds } = jobWith(shop, ['wash', 'handover']);
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    shop.write('bookings.startStage', { stageId: stageIds[0] as StageId });
    shop.at(TEST_NOW + 60 * MIN);
    shop.write('bookings.finishStage', { stageId: stageIds[0] as StageId, draws: [] });
    expect((await shop.read('bookings.job', { jobId })).readyMs).toBe(TEST_NOW + 60 * MIN);
    const personId = shop.people.technician;
    const endMs = (TEST_NOW + 20 * MIN) as EpochMs;
    shop.write('bookings.typeTime', { stageId: stageIds[1] as StageId, personId, startMs: TEST_NOW, endMs });
    const job = await shop.read('bookings.job', { jobId });
    expect([job.state, job.readyMs]).toEqual(['inWork', null]);
  });
});

describe('a stage in work that is planned anew', () => {
  it('takes the new minutes and amounts and keeps its time, its ticks and its state', async () => {
    const { jobId, stageIds } = jobWith(shop, ['clay', 'cut']);
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    const cut = stageIds[1] as StageId;
    shop.write('bookings.startStage', { stageId: cut, setAside: unclayed('clayed before') });
    shop.write('bookings.panelDone', { stageId: cut, panel: 'ro', done: true });
    shop.at(TEST_NOW + 30 * MIN);
    const slower = { ...planned('cut', ['bo']), p50Min: 75, p80Min: 100, p95Min: 130, estimatedMin: 75 };
    const materials = [{ material: 'heavyCutCompound' as const, amount: 45_000 }];
    const stages = [planned('clay'), { ...slower, materials }];
    expect(shop.write('bookings.setStages', { jobId, basis: 'agreed', stages }).stageIds).toContain(cut);
    const stage = (await shop.read('bookings.job', { jobId })).stages.find((s) => s.id === cut);
    expect(stage).toMatchObject({ state: 'inWork', p50Min: 75, attendedMs: 30 * MIN, panelsDone: ['ro'] });
    expect(stage?.panels).toEqual(['bo', 'ro']);
    expect(stage?.materials[0]?.planned).toBe(45_000);
  });
});
