import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type BayShop, openBayShop } from '#tests/core/bays/shop.ts';
import { addJob, type PaintCase } from '#tests/core/paint/job.ts';
import { pdfText } from '#tests/helpers/pdfText.ts';

let shop: BayShop;
let job: PaintCase;
beforeEach(() => {
  shop = openBayShop();
  job = addJob(shop);
  const { jobId } = job;
  shop.write('paint.startInspection', { jobId });
  shop.write('paint.addFindings', {
    jobId,
    panels: ['bo', 'ro', 'lfd', 'rfd'],
    defect: 'swirls',
    severity: 'moderate',
  });
  shop.write('estimate.fromInspection', { jobId, wish: 'twoStage' });
});
afterEach(() => shop.close());

const newest = async () => (await shop.read('estimate.ofJob', { jobId: job.jobId }))[0];
async function quoted() {
  const estimateIds = [(await newest())?.id ?? ''];
  const { quoteId } = shop.write('billing.quoteEstimates', { jobId: job.jobId, estimateIds });
  return shop.read('billing.readQuote', { quoteId });
}
async function agreedAndBooked() {
  const first = await quoted();
  shop.write('billing.acceptQuote', {
    ...{ quoteId: first.id, revision: first.revision, letter: 'A', name: 'Marit', way: 'spoken' },
  });
  shop.write('bays.bookEarliest', { jobId: job.jobId, runs: 200, marginMin: null });
}

describe('the dates of a new version after a test spot', () => {
  test('are none before the car is booked', async () => {
    expect((await quoted()).options[0]?.pickUp).toBeNull();
  });

  test('are those booked, as sure as they were, where nothing became longer', async () => {
    await agreedAndBooked();
    const same = await quoted();
    expect(same.options[0]?.pickUp?.pickUpMin).toBe(same.pickUpMin);
    expect(same.options[0]?.pickUp?.agreedPpm).toBeGreaterThanOrEqual(800_000);
  });

  test('are later and the booked one less sure where the paint is hard, on screen and on paper', async () => {
    await agreedAndBooked();
    const before = (await quoted()).options[0]?.pickUp;
    shop.db.raw.exec(
      `UPDATE job_stage SET state = 'done', done_ms = 1 WHERE kind IN ('decontaminate', 'clay')`,
    );
    shop.write('paint.recordTestSpot', {
      ...{ jobId: job.jobId, panel: 'bo', role: 'heavyCut' },
      ...{ passes: 30, seconds: 5400 },
    });
    const slow = await quoted();
    const after = slow.options[0]?.pickUp;
    expect(after?.agreedPpm).toBeLessThan(before?.agreedPpm ?? 0);
    expect(after?.pickUpMin).toBeGreaterThan(slow.pickUpMin ?? 0);
    const file = await shop.call('billing.quoteFile', { quoteId: slow.id });
    const { bytes } = (file as unknown as { value: { bytes: Uint8Array } }).value;
    const text = (await pdfText(bytes)).join(' ').replace(/\s+/g, ' ');
    expect(text).toMatch(/With these hours instead: pick-up \w+,? \w+ \d+/);
  });

  test('stand with no version that is agreed to', async () => {
    await agreedAndBooked();
    expect((await shop.read('billing.readJobQuote', { jobId: job.jobId }))?.options[0]?.pickUp).toBeNull();
  });
});
