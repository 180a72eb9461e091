import { afterEach, beforeEach, expect, test } from 'vitest';
import { addJob, type PaintCase } from '#tests/core/paint/job.ts';
import { openTestShop, type TestShop } from '#tests/helpers/shop.ts';

let shop: TestShop;
let job: PaintCase;
beforeEach(() => {
  shop = openTestShop();
  job = addJob(shop);
});
afterEach(() => shop.close());

async function kinds(): Promise<readonly string[]> {
  const view = await shop.read('bookings.job', { jobId: job.jobId });
  return view.stages.filter((s) => s.state !== 'dropped').map((s) => s.kind);
}
function visit(): void {
  shop.db.raw.prepare("UPDATE job SET purpose = 'inspectionVisit' WHERE id = ?").run(job.jobId);
}

test('an estimate as told gives the job its stages, so that it can be offered dates', async () => {
  shop.write('estimate.provisional', { jobId: job.jobId, wish: 'twoStage' });
  expect(await kinds()).toContain('cut');
  expect((await shop.read('bookings.job', { jobId: job.jobId })).planBasis).toBe('provisional');
});

test('a visit is planned as the look alone until somebody has seen the car', async () => {
  visit();
  shop.write('estimate.provisional', { jobId: job.jobId, wish: 'twoStage' });
  expect(await kinds()).toEqual(['inspection']);
});

test('a car sent home after the look leaves the board, and its work is what comes back', async () => {
  visit();
  shop.write('estimate.provisional', { jobId: job.jobId, wish: 'twoStage' });
  shop.write('bookings.arrive', {
    ...{ jobId: job.jobId, mileage: 1, mileageUnit: 'km', keyCount: 1, belongings: '', damage: [] },
    ...{ picturesRecord: false, picturesPublish: false, agreedBy: 'Jörg', agreedWay: 'spoken' },
  });
  shop.write('paint.startInspection', { jobId: job.jobId });
  shop.write('paint.addFindings', {
    jobId: job.jobId,
    panels: ['bo'],
    defect: 'swirls',
    severity: 'moderate',
  });
  shop.write('estimate.fromInspection', { jobId: job.jobId });
  shop.write('bookings.sendHome', { jobId: job.jobId, givenTo: 'Ebba', note: 'fetched on foot' });
  const view = await shop.read('bookings.job', { jobId: job.jobId });
  expect([view.state, view.purpose, view.planBasis]).toEqual(['quoted', 'correction', 'inspected']);
  expect(await kinds()).not.toContain('inspection');
  expect(view.records.map((r) => [r.kind, r.keyCount, r.agreedBy, r.note]).sort()).toEqual([
    ['arrival', 1, 'Jörg', ''],
    ['handover', 1, 'Ebba', 'fetched on foot'],
  ]);
});

test('a car that is here goes home with its keys when the job is cancelled', async () => {
  shop.write('bookings.arrive', {
    ...{ jobId: job.jobId, mileage: 1, mileageUnit: 'km', keyCount: 2, belongings: 'seat', damage: [] },
    ...{ picturesRecord: false, picturesPublish: false, agreedBy: 'Jörg', agreedWay: 'spoken' },
  });
  shop.write('bookings.cancelJob', { jobId: job.jobId, reason: 'sold the car', deposit: null });
  const view = await shop.read('bookings.job', { jobId: job.jobId });
  expect(view.state).toBe('cancelled');
  expect(view.records.map((r) => [r.kind, r.keyCount, r.agreedBy, r.note]).sort()).toEqual([
    ['arrival', 2, 'Jörg', ''],
    ['handover', 2, 'Jörg', 'sold the car'],
  ]);
});

test('what the customer agreed to stands while a new version is estimated', async () => {
  visit();
  const { estimateId } = shop.write('estimate.provisional', { jobId: job.jobId, wish: 'twoStage' });
  const { quoteId } = shop.write('billing.quoteEstimates', { jobId: job.jobId, estimateIds: [estimateId] });
  const { revision } = await shop.read('billing.readQuote', { quoteId });
  shop.write('billing.acceptQuote', { quoteId, revision, letter: 'A', name: 'Jörg', way: 'spoken' });
  const agreed = await kinds();
  expect(agreed).toContain('cut');
  shop.write('estimate.provisional', { jobId: job.jobId, wish: 'clean' });
  expect(await kinds()).toEqual(agreed);
  expect((await shop.read('bookings.job', { jobId: job.jobId })).purpose).toBe('correction');
});

test('a car that did not come is offered dates for what is estimated since, not for what it was booked for', async () => {
  shop.write('estimate.provisional', { jobId: job.jobId, wish: 'twoStage' });
  shop.db.raw.prepare("UPDATE job SET state = 'booked', drop_off_min = 1, pick_up_min = 2").run();
  shop.write('estimate.provisional', { jobId: job.jobId, wish: 'clean' });
  expect(await kinds()).toContain('cut');
  shop.write('bookings.noShow', { jobId: job.jobId, reason: 'no word' });
  shop.write('estimate.provisional', { jobId: job.jobId, wish: 'protect' });
  expect(await kinds()).not.toContain('cut');
});
