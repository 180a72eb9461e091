import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { JobId, QuoteId } from '#core/shared/ids.ts';
import { localDayOf } from '#core/shared/time.ts';
import type { Ppm } from '#core/shared/units.ts';
import { acceptedFacts, billFacts, quoteFacts, worthOf } from '#core/views/mondayMoney.ts';
import { quotesAnswered } from '#core/views/quotesAnswered.ts';
import {
  addTestJob,
  agreedJob,
  billJob,
  issueDraft,
  quoteJob,
  stopWith,
  testEstimate,
} from '../../helpers/billing.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

const DAY_MS = 86_400_000;
/** What the test estimate comes to. */
const AGREED = 90_390;
const USUAL = 12_345;

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const today = () => localDayOf(shop.now(), 'Europe/Berlin');
const quoted = (jobId: JobId, more: Parameters<typeof testEstimate>[1] = {}, reason = ''): QuoteId =>
  quoteJob(shop, jobId, [testEstimate(jobId, more)], reason);
const send = (quoteId: QuoteId): void => void shop.write('billing.sendQuote', { quoteId, revision: 1 });
const accept = (quoteId: QuoteId, revision = 1): void =>
  void shop.write('billing.acceptQuote', {
    ...{ quoteId, revision, letter: 'A', name: 'Marit Vane', way: 'spoken' },
  });

describe('finished work that is not billed', () => {
  const finished = (): JobId => {
    const { jobId } = agreedJob(shop);
    shop.db.raw.prepare("UPDATE job SET state = 'ready', ready_ms = ? WHERE id = ?").run(TEST_NOW, jobId);
    return jobId;
  };
  const left = () => billFacts(shop.db, USUAL).map((f) => [f.jobId, f.worthMinor]);

  it('is worth what partial invoices left of it', async () => {
    const jobId = finished();
    expect(left()).toEqual([[jobId, AGREED]]);
    const shares = Array.from({ length: 6 }, (_, line) => ({ line, sharePpm: 600_000 as Ppm }));
    const { invoiceId } = shop.write('billing.draftPartial', { jobId, shares });
    await issueDraft(shop, invoiceId);
    const { toPayMinor } = (await shop.read('billing.readInvoice', { invoiceId })).totals;
    expect(toPayMinor).toBeGreaterThan(0);
    expect(left()).toEqual([[jobId, AGREED - toPayMinor]]);
  });

  it('is there until its invoice is issued: a draft brings nothing', async () => {
    const jobId = finished();
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    expect(left()).toEqual([[jobId, AGREED]]);
    await issueDraft(shop, invoiceId);
    expect(left()).toEqual([]);
    await billJob(shop, finished());
    expect(left()).toEqual([]);
  });

  it('stopped half way is worth what was done of it', () => {
    const jobId = finished();
    shop.db.raw.prepare('UPDATE job SET stopped_ms = ? WHERE id = ?').run(TEST_NOW, jobId);
    // Wash and clay whole, a third of the cut: 60 + 60 + 60 of 570 minutes.
    stopWith(shop, jobId, [1_000_000, 1_000_000, 0, 333_333]);
    const [[, worth] = []] = left();
    expect(worth).toBe(Math.round((AGREED * 180) / 570));
  });
});

it('a job redone under warranty has nothing to lose: it is not billed', () => {
  const [{ jobId }, first] = [addTestJob(shop), agreedJob(shop)];
  const worth = () => worthOf(shop.db, [jobId, first.jobId], USUAL);
  expect([worth()(jobId), worth()(first.jobId)]).toEqual([USUAL, AGREED]);
  shop.db.raw.prepare('UPDATE job SET redo_of_job_id = ? WHERE id = ?').run(first.jobId, jobId);
  expect([worth()(jobId), worth()(first.jobId)]).toEqual([0, AGREED]);
});

describe('quotes', () => {
  const shares = () => {
    const { ppm, of } = acceptedFacts(shop.db, shop.now(), today());
    const all = quotesAnswered(shop.db, {
      ...{ fromMs: TEST_NOW - DAY_MS, toMs: TEST_NOW + 365 * DAY_MS, today: today() },
    });
    return [
      [ppm, of],
      [all.filter((q) => q.accepted).length, all.length],
    ];
  };
  const later = (days: number): void => shop.at(TEST_NOW + days * DAY_MS);

  it('of which a newer version is open say nothing yet, though the first has lapsed', () => {
    const { jobId } = addTestJob(shop);
    send(quoted(jobId));
    later(90);
    expect(shares()).toEqual([
      [0, 1],
      [0, 1],
    ]);
    send(quoted(jobId, {}, 'asked again'));
    expect(shares()).toEqual([
      [500_000, 0],
      [0, 0],
    ]);
  });

  it('that were agreed to stay so where more work was offered later, and declined or not yet answered', () => {
    const { jobId } = agreedJob(shop);
    const more = quoted(jobId, { labour: 100_000 }, 'the roof too');
    send(more);
    expect(shares()).toEqual([
      [1_000_000, 1],
      [1, 1],
    ]);
    shop.write('billing.declineQuote', { quoteId: more, revision: 2 });
    expect(shares()).toEqual([
      [1_000_000, 1],
      [1, 1],
    ]);
  });

  it('count by their newest version where that was agreed to', () => {
    const { jobId } = agreedJob(shop);
    accept(quoted(jobId, { labour: 100_000 }, 'the roof too'));
    const [answered] = quotesAnswered(shop.db, { fromMs: 0, toMs: TEST_NOW + 1, today: today() });
    expect(answered).toMatchObject({ accepted: true, askedMinor: AGREED + 100_000 - 80_750 });
  });

  it('told at the counter count either way: a spoken no as much as a spoken yes', () => {
    agreedJob(shop);
    shop.write('billing.declineQuote', { quoteId: quoted(addTestJob(shop).jobId), revision: 1 });
    expect(shares()).toEqual([
      [500_000, 2],
      [1, 2],
    ]);
  });

  it('about to lapse are worth what they add where something is agreed already', () => {
    const first = addTestJob(shop);
    send(quoted(first.jobId));
    const more = agreedJob(shop);
    send(quoted(more.jobId, { labour: 100_000 }, 'the roof too'));
    const less = agreedJob(shop);
    send(quoted(less.jobId, { labour: 50_000 }, 'without the roof'));
    later(30);
    const day = shop.db.raw.prepare('SELECT max(valid_until_day) FROM quote').pluck().get() as never;
    expect(quoteFacts(shop.db, day).map((q) => [q.jobId, q.worthMinor])).toEqual([
      [first.jobId, AGREED],
      [more.jobId, 100_000 - 80_750],
    ]);
  });
});
