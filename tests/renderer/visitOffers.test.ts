import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { OffersView } from '#core/shared/views/offers.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();

/** A visit is booked, and the quote is agreed to before it: the work itself has no dates yet. */
describe.skipIf(choice === null)('offers for the work of a car that is booked for a look', () => {
  let win: ShopWindow;
  let jobId = '';

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice);
    const { call } = win;
    const { id: customerId } = await call<{ id: string }>('people.addCustomer', { name: 'Marit Vane' });
    const car = { customerId, body: 'saloon', makeModel: 'Velloy Merrin' };
    const { id: vehicleId } = await call<{ id: string }>('people.addVehicle', car);
    const job = { customerId, vehicleId, purpose: 'inspectionVisit', wish: 'swirls' };
    jobId = (await call<{ jobId: string }>('bookings.openJob', job)).jobId;
    const asked = { jobId, wish: 'oneStage', condition: 'worn' };
    const { estimateId } = await call<{ estimateId: string }>('estimate.provisional', asked);
    const { planRevision, offers } = await call<OffersView>('bays.offers', { jobId });
    await call('bays.bookOffer', { planRevision, plan: offers[0]?.plan });
    const { quoteId } = await call<{ quoteId: string }>('billing.quoteEstimates', {
      ...{ jobId, estimateIds: [estimateId], reason: '' },
    });
    const { revision } = await call<{ revision: number }>('billing.readJobQuote', { jobId });
    const agreed = { letter: 'A', name: 'Marit Vane', way: 'spoken' };
    await call('billing.acceptQuote', { quoteId, revision, ...agreed });
  });
  afterAll(() => win?.close());

  it('leads from the job to dated offers, without asking for other dates first', async () => {
    const { page } = win;
    await win.goTo(`/jobs/${jobId}`);
    await page.getByRole('button', { name: 'Offers', exact: true }).click();
    await page.getByRole('region', { name: 'Offers' }).getByRole('article').first().waitFor();
    // They are of the whole work, not of another look.
    const { offers } = await win.call<OffersView>('bays.offers', { jobId });
    expect(offers[0]?.plan.pieces.length).toBeGreaterThan(1);
    expect(await page.getByRole('button', { name: 'Other dates' }).count()).toBe(0);
    expect(await page.getByText(/is booked, promised for/).count()).toBe(0);
    expect(win.faults).toEqual([]);
  });
});
