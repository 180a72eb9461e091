import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { EpochMin } from '#core/shared/units.ts';
import type { QuoteView } from '#core/shared/views/billing.ts';
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

/** A version after a spot that took far longer than was planned. */
async function quotedSlower() {
  shop.db.raw.exec(
    `UPDATE job_stage SET state = 'done', done_ms = 1 WHERE kind IN ('decontaminate', 'clay')`,
  );
  shop.write('paint.recordTestSpot', {
    ...{ jobId: job.jobId, panel: 'bo', role: 'heavyCut' },
    ...{ passes: 30, seconds: 5400 },
  });
  return quoted();
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

  test('are for each of several options what they are for it alone', async () => {
    await agreedAndBooked();
    const { jobId } = job;
    shop.write('estimate.hands', { jobId, two: ['cut'] });
    const ids = (await shop.read('estimate.ofJob', { jobId })).map((e) => e.id);
    expect(ids).toHaveLength(2);
    const pickUps = async (estimateIds: string[]) => {
      const { quoteId } = shop.write('billing.quoteEstimates', { jobId, estimateIds });
      return (await shop.read('billing.readQuote', { quoteId })).options.map((o) => o.pickUp);
    };
    const apart = [...(await pickUps(ids.slice(0, 1))), ...(await pickUps(ids.slice(1)))];
    expect(await pickUps(ids)).toEqual(apart);
    expect(apart[0]).not.toBeNull();
  });

  test('are later and the booked one less sure where the paint is hard, on screen and on paper', async () => {
    await agreedAndBooked();
    const before = (await quoted()).options[0]?.pickUp;
    const slow = await quotedSlower();
    const after = slow.options[0]?.pickUp;
    expect(after?.agreedPpm).toBeLessThan(before?.agreedPpm ?? 0);
    expect(after?.pickUpMin).toBeGreaterThan(slow.pickUpMin ?? 0);
    const file = await shop.call('billing.quoteFile', { quoteId: slow.id });
    const { bytes } = (file as unknown as { value: { bytes: Uint8Array } }).value;
    const text = (await pdfText(bytes)).join(' ').replace(/\s+/g, ' ');
    expect(text).toMatch(
      /With these hours instead: pick-up \w+,? \w+ \d+.*, [89]\d in 100 such jobs keep it/,
    );
  });

  test('are none to be told where the version holds work that has no place yet', async () => {
    await agreedAndBooked();
    shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage', interior: true });
    const more = (await quoted()).options[0]?.pickUp;
    expect(more).toEqual({ agreedPpm: null, pickUpMin: null, surePpm: null });
  });

  test('stand with no version that is agreed to', async () => {
    await agreedAndBooked();
    expect((await shop.read('billing.readJobQuote', { jobId: job.jobId }))?.options[0]?.pickUp).toBeNull();
  });
});

describe('the pick-up of a booked car, when a version with other hours is agreed to', () => {
  const agreeTo = (quote: QuoteView, pickUpMin?: number) => ({
    ...{
      quoteId: quote.id,
      revision: quote.revision,
      letter: 'A' as const,
      name: 'Marit',
      way: 'telephone' as const,
    },
    ...(pickUpMin === undefined ? {} : { pickUpMin: pickUpMin as EpochMin }),
  });
  const booked = async () => {
    const { promise, stages } = await shop.read('bookings.job', { jobId: job.jobId });
    return { ...promise, stages };
  };
  async function sequence(): Promise<number> {
    const file = await shop.call('bays.calendarFile', { jobId: job.jobId });
    const { bytes } = (file as unknown as { value: { bytes: Uint8Array } }).value;
    return Number(/SEQUENCE:(\d+)/.exec(new TextDecoder().decode(bytes))?.[1]);
  }

  test('moves to what the version said, as sure as promises are, where the customer agrees to it', async () => {
    await agreedAndBooked();
    const [was, count] = [await booked(), await sequence()];
    const slow = await quotedSlower();
    const offered = slow.options[0]?.pickUp;
    expect(offered?.surePpm).toBeGreaterThanOrEqual(800_000);
    shop.write('billing.acceptQuote', agreeTo(slow, offered?.pickUpMin ?? 0));
    const is = await booked();
    expect(is.pickUpMin).toBe(offered?.pickUpMin);
    expect(is.pickUpMin).toBeGreaterThan(was.pickUpMin ?? 0);
    expect(is.dropOffMin).toBe(was.dropOffMin);
    expect(is.promisedPpm).toBeGreaterThanOrEqual(800_000);
    expect(await sequence()).toBeGreaterThan(count);
    const accepted = await shop.read('billing.readQuote', { quoteId: slow.id });
    expect(accepted.acceptance).toMatchObject({ name: 'Marit', way: 'telephone' });
  });

  test('leaves no rule broken on the board: the work is laid for its new hours, and the car can stand until then', async () => {
    await agreedAndBooked();
    const slow = await quotedSlower();
    const pickUpMin = slow.options[0]?.pickUp?.pickUpMin ?? 0;
    shop.write('billing.acceptQuote', agreeTo(slow, pickUpMin));
    expect(await shop.read('bays.faults', {})).toEqual([]);
    const leave = shop.db.raw.prepare('SELECT max(leave_min) FROM stay').pluck().get();
    expect(leave).toBeGreaterThanOrEqual(pickUpMin);
  });

  test('stays where it is while nobody agreed to another', async () => {
    await agreedAndBooked();
    const was = await booked();
    const slow = await quotedSlower();
    shop.write('billing.acceptQuote', agreeTo(slow));
    expect(await booked()).toMatchObject({ pickUpMin: was.pickUpMin, promisedPpm: was.promisedPpm });
    // The board says that the places are too short for it.
    expect(await shop.read('bays.faults', {})).not.toEqual([]);
  });

  test('is refused with all else where it is less sure than the shop promises', async () => {
    await agreedAndBooked();
    const [was, slow] = [await booked(), await quotedSlower()];
    const reply = await shop.call('billing.acceptQuote', agreeTo(slow, (was.pickUpMin ?? 0) + 30));
    expect(reply).toMatchObject({ ok: false, error: { code: 'PICK_UP_NOT_SURE' } });
    expect((await shop.read('billing.readQuote', { quoteId: slow.id })).state).toBe('draft');
    const is = await booked();
    expect(is.pickUpMin).toBe(was.pickUpMin);
    expect(is.stages.map((s) => s.p50Min)).toEqual(was.stages.map((s) => s.p50Min));
  });

  test('is nothing to agree to before the car is booked', async () => {
    const quote = await quoted();
    const reply = await shop.call('billing.acceptQuote', agreeTo(quote, 30_000_000));
    expect(reply).toMatchObject({ ok: false, error: { code: 'JOB_NOT_BOOKED' } });
    expect((await shop.read('billing.readQuote', { quoteId: quote.id })).state).toBe('draft');
  });
});
