import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { QuoteView } from '#core/shared/views/billing.ts';
import type { JobView } from '#core/shared/views/bookings.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openJobFor, openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();

/** A booked car whose paint turns out worse than it was quoted for. */
describe.skipIf(choice === null)('a new version of the quote of a booked car', () => {
  let shop: ShopWindow;
  let jobId = '';

  const quoted = async (estimateId: string): Promise<QuoteView> => {
    const { quoteId } = await shop.call<{ quoteId: string }>('billing.quoteEstimates', {
      ...{ jobId, estimateIds: [estimateId] },
    });
    return shop.call<QuoteView>('billing.readQuote', { quoteId });
  };
  const estimated = async (interior: boolean): Promise<string> => {
    const asked = { jobId, wish: 'twoStage', interior };
    return (await shop.call<{ estimateId: string }>('estimate.fromInspection', asked)).estimateId;
  };
  const promise = async () => (await shop.call<JobView>('bookings.job', { jobId })).promise;

  beforeAll(async () => {
    if (!choice) return;
    shop = await openShopWindow(choice);
    jobId = await openJobFor(
      shop.call,
      { name: 'Marit Vane' },
      { body: 'saloon', makeModel: 'Velloy Merrin' },
    );
    await shop.call('paint.startInspection', { jobId });
    const panels = ['bo', 'ro', 'bl', 'lfd', 'rfd', 'lrd', 'rrd'];
    await shop.call('paint.addFindings', { jobId, panels, defect: 'swirls', severity: 'light' });
    const first = await quoted(await estimated(false));
    const by = { letter: 'A', name: 'Marit Vane', way: 'spoken' };
    await shop.call('billing.acceptQuote', { quoteId: first.id, revision: first.revision, ...by });
    await shop.call('bays.bookEarliest', { jobId, runs: 200, marginMin: null });
    await shop.call('paint.addFindings', { jobId, panels, defect: 'scratches', severity: 'heavy' });
    await quoted(await estimated(false));
  });
  afterAll(() => shop?.close());

  test('asks for the word on another pick-up, with its chance, and moves it only with that word', async () => {
    const was = await promise();
    await shop.goTo(`/jobs/${jobId}/quote`);
    const { page } = shop;
    await page.getByText('It stays until they agree to another.').waitFor();
    const word = page.getByLabel(/^They agree to .* instead, at least [89]\d.% sure$/);
    expect(await word.isChecked()).toBe(false);
    await shop.shot('quote-pick-up');
    await shop.holds();
    await word.check({ force: true });
    await page.getByRole('button', { name: /^Agree A,/ }).click();
    await page.getByText(/agreed by Marit Vane/).waitFor();
    await page.getByLabel('Option A').getByText('agreed', { exact: true }).waitFor();
    const is = await promise();
    expect(is.pickUpMin).toBeGreaterThan(was.pickUpMin ?? 0);
    expect(is.promisedPpm).toBeGreaterThanOrEqual(800_000);
    expect(is.dropOffMin).toBe(was.dropOffMin);
  });

  test('says that dates are to be agreed anew where it holds work that has no place yet', async () => {
    await quoted(await estimated(true));
    await shop.goTo(`/jobs/${jobId}/quote`);
    await shop.page.getByText('The booked places do not hold all the work of A').waitFor();
  });
});
