import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { QuoteView } from '#core/shared/views/billing.ts';
import type { JobView } from '#core/shared/views/bookings.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();

/** A customer who named a most, offered two options below it and one above. */
describe.skipIf(choice === null)('a quote of which one option is agreed', () => {
  let shop: ShopWindow;
  let jobId = '';
  let quote: QuoteView;

  async function open(ceilingMinor: number): Promise<void> {
    const { id: customerId } = await shop.call<{ id: string }>('people.addCustomer', { name: 'Marit Vane' });
    const car = { customerId, body: 'saloon', makeModel: 'Velloy Merrin' };
    const { id: vehicleId } = await shop.call<{ id: string }>('people.addVehicle', car);
    const wanted = { customerId, vehicleId, purpose: 'correction', wish: '', ceilingMinor };
    jobId = (await shop.call<{ jobId: string }>('bookings.openJob', wanted)).jobId;
    await shop.call('paint.startInspection', { jobId });
    await shop.call('paint.addFindings', { jobId, panels: ['bo'], defect: 'swirls', severity: 'light' });
  }
  beforeAll(async () => {
    if (!choice) return;
    shop = await openShopWindow(choice);
    await open(1_000_000);
    const wishes = [{ wish: 'oneStage' }, { wish: 'twoStage' }, { wish: 'twoStage', interior: true }];
    const estimateIds: string[] = [];
    for (const asked of wishes) {
      const made = await shop.call<{ estimateId: string }>('estimate.fromInspection', { jobId, ...asked });
      estimateIds.push(made.estimateId);
    }
    const read = await shop.call<{ quoteId: string }>('billing.quoteEstimates', { jobId, estimateIds });
    quote = await shop.call<QuoteView>('billing.readQuote', { quoteId: read.quoteId });
    const pays = quote.options.map((o) => o.totals.toPayMinor);
    const ceilingMinor = Math.round(((pays[1] ?? 0) + (pays[2] ?? 0)) / 2);
    const { revision } = await shop.call<JobView>('bookings.job', { jobId });
    await shop.call('bookings.changeJob', { jobId, revision, ceilingMinor });
  });
  afterAll(() => shop?.close());

  test('warns of what is above the most until another option is agreed, and marks that one', async () => {
    const { page } = shop;
    await shop.goTo(`/jobs/${jobId}/quote`);
    const warning = page.getByText(/^C is .* above the/);
    await warning.first().waitFor();
    const by = { letter: 'B', name: 'Marit Vane', way: 'spoken' };
    await shop.call('billing.acceptQuote', { quoteId: quote.id, revision: quote.revision, ...by });
    await page.getByLabel('Option B').getByText('agreed', { exact: true }).waitFor();
    expect(await page.getByText('agreed', { exact: true }).count()).toBe(1);
    expect(await warning.count()).toBe(0);
    await shop.holds();
    await shop.shot('quote-agreed');
  });

  test('comes from an estimate that says its materials have no price yet', async () => {
    await shop.goTo(`/jobs/${jobId}/estimate`);
    await shop.page.getByText('These materials have no price in Stock yet').first().waitFor();
    await shop.holds();
    await shop.shot('estimate-no-prices');
  });
});
