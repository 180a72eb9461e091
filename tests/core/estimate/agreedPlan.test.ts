import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { filmTaken, plannedRemoval, visitsOf } from '#core/views/filmTaken.ts';
import { finishedJobs } from '#core/views/history.ts';
import { addDoneStage, addJob, type PaintCase } from '#tests/core/paint/job.ts';
import { openTestShop, type TestShop } from '#tests/helpers/shop.ts';

let shop: TestShop;
let job: PaintCase;
beforeEach(() => {
  shop = openTestShop();
  job = addJob(shop);
  shop.write('paint.startInspection', { jobId: job.jobId });
  shop.write('paint.addFindings', { jobId: job.jobId, panels: ['bo'], defect: 'swirls', severity: 'heavy' });
});
afterEach(() => shop.close());

/** The customer agrees to the newest version; then somebody estimates another one. */
async function agreeThen(wish: 'oneStage' | 'twoStage', later: 'oneStage' | 'twoStage' | 'clean') {
  const { estimateId } = shop.write('estimate.fromInspection', { jobId: job.jobId, wish });
  const { quoteId } = shop.write('billing.quoteEstimates', { jobId: job.jobId, estimateIds: [estimateId] });
  const { revision } = await shop.read('billing.readQuote', { quoteId });
  shop.write('billing.acceptQuote', { quoteId, revision, letter: 'A', name: 'Marit', way: 'spoken' });
  shop.write('estimate.fromInspection', { jobId: job.jobId, wish: later });
  const [newest, agreed] = await shop.read('estimate.ofJob', { jobId: job.jobId });
  if (!newest || !agreed) throw new Error('two versions');
  return { newest, agreed };
}
const onBonnet = (e: { panels: readonly { panel: string; removalTenthUm: number }[] }): number =>
  e.panels.find((p) => p.panel === 'bo')?.removalTenthUm ?? 0;

describe('what the customer agreed to counts, not what was estimated since', () => {
  test('for the film that the plan takes off each panel', async () => {
    const { newest, agreed } = await agreeThen('twoStage', 'oneStage');
    expect(onBonnet(agreed)).toBeGreaterThan(onBonnet(newest));
    expect(plannedRemoval(shop.db, job.jobId).get('bo')).toBe(onBonnet(agreed));
  });

  test('for what a test spot corrects: its new version keeps the levels that were agreed', async () => {
    const { agreed } = await agreeThen('twoStage', 'clean');
    shop.db.raw
      .prepare("UPDATE job_stage SET state = 'done', started_ms = 1, done_ms = 2 WHERE kind = 'clay'")
      .run();
    shop.write('paint.recordTestSpot', {
      jobId: job.jobId,
      panel: 'bo',
      role: 'heavyCut',
      passes: 6,
      seconds: 900,
    });
    const [corrected] = await shop.read('estimate.ofJob', { jobId: job.jobId });
    const levels = (e: typeof agreed | undefined) => e?.panels.map((p) => [p.panel, p.level]);
    expect(corrected?.wish).toBe('twoStage');
    expect(levels(corrected)).toEqual(levels(agreed));
    expect(corrected?.hours.p50Min).toBeGreaterThan(agreed.hours.p50Min);
  });

  test('and the newest version where nothing was agreed', async () => {
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'oneStage' });
    const [newest] = await shop.read('estimate.ofJob', { jobId: job.jobId });
    if (!newest) throw new Error('a version');
    expect(plannedRemoval(shop.db, job.jobId).get('bo')).toBe(onBonnet(newest));
  });

  test('for the P80 that a finished job is held against', async () => {
    const { newest, agreed } = await agreeThen('twoStage', 'clean');
    expect(agreed.hours.p80Min).toBeGreaterThan(newest.hours.p80Min);
    shop.db.raw.exec('DELETE FROM job_material; DELETE FROM job_stage');
    addDoneStage(shop, job.jobId, 1, 'cut', 60, 66, ['bo']);
    shop.db.raw.prepare("UPDATE job SET state = 'ready'").run();
    expect(finishedJobs(shop.db, 10)).toEqual([{ p80Min: agreed.hours.p80Min, actualMin: 66 }]);
  });
});

test('the look is held against an estimate that has it in, not against one that was made after it', () => {
  const took = (): readonly number[] => {
    shop.db.raw.exec('DELETE FROM stage_work; DELETE FROM job_material; DELETE FROM job_stage');
    addDoneStage(shop, job.jobId, 1, 'inspection', 20, 25);
    addDoneStage(shop, job.jobId, 2, 'wash', 60, 66);
    shop.db.raw.prepare("UPDATE job SET state = 'ready'").run();
    return finishedJobs(shop.db, 10).map((j) => j.actualMin);
  };
  shop.write('estimate.provisional', { jobId: job.jobId, wish: 'clean' });
  expect(took()).toEqual([91]);
  shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'clean' });
  expect(took()).toEqual([66]);
});

describe('a job stopped half way', () => {
  beforeEach(() => {
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
    shop.db.raw.exec('DELETE FROM job_material; DELETE FROM job_stage');
    addDoneStage(shop, job.jobId, 1, 'cut', 60, 66, ['bo']);
    shop.db.raw
      .prepare("UPDATE job_stage SET state = 'dropped', done_ms = NULL, started_ms = 1 WHERE job_id = ?")
      .run(job.jobId);
    shop.db.raw.prepare("UPDATE job SET state = 'ready', stopped_ms = 2").run();
  });

  test('neither kept nor broke its P80', () => {
    expect(finishedJobs(shop.db, 10)).toEqual([]);
  });

  test('is still a visit of the car, and the film it took counts there', () => {
    shop.db.raw.pragma('foreign_keys = OFF');
    shop.db.raw.exec('DROP TRIGGER finding_no_delete; DELETE FROM finding; DELETE FROM inspection');
    expect(visitsOf(shop.db, job.vehicleId).map((v) => v.jobId)).toEqual([job.jobId]);
    expect(filmTaken(shop.db, job.vehicleId).map((t) => t.panel)).toContain('bo');
  });
});
