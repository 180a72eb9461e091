import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findChromium } from '../helpers/chromium.ts';
import { openJobFor, openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();

/** A job is called off while money is held for it and the same customer has another job. */
describe.skipIf(choice === null)('cancelling a job with a deposit', () => {
  let win: ShopWindow;
  let jobId = '';
  const held = () =>
    win.rows('SELECT job_id, sum(amount_minor) AS sum FROM payment GROUP BY job_id ORDER BY sum');

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice);
    jobId = await openJobFor(
      win.call,
      { name: 'Marit Vane' },
      { body: 'saloon', makeModel: 'Velloy Merrin' },
    );
    await win.call('billing.takeDeposit', { jobId, amountMinor: 5000, way: 'card' });
  }, 90_000);
  afterAll(() => win?.close());

  it('offers no move while the customer has no other job, and says so', async () => {
    const { page } = win;
    await win.goTo(`/jobs/${jobId}?end=cancel`);
    await page.getByText('This customer has no other open job.').waitFor();
    await page.getByRole('button', { name: /^The deposit of/ }).click();
    expect(await page.getByRole('option').allTextContents()).not.toContain('moved to another job');
    await page.keyboard.press('Escape');
  });

  it('moves it to the other job in the same breath', async () => {
    const { page } = win;
    const { customer, vehicle } = await win.call<{ customer: { id: string }; vehicle: { id: string } }>(
      'bookings.job',
      { jobId },
    );
    const which = { customerId: customer.id, vehicleId: vehicle.id };
    const next = { ...which, purpose: 'correction', wish: 'in spring then' };
    const { jobId: otherId } = await win.call<{ jobId: string }>('bookings.openJob', next);
    await page.getByText('This customer has no other open job.').waitFor({ state: 'detached' });
    await page.getByRole('button', { name: /^The deposit of/ }).click();
    await page.getByRole('option', { name: 'moved to another job' }).click();
    await page.getByLabel('Why', { exact: true }).fill('off sick');
    const yes = page.getByRole('alertdialog').getByRole('button', { name: 'Cancel the job' });
    expect(await yes.getAttribute('aria-disabled')).toBe('true');
    await page.getByRole('button', { name: /^To which job/ }).click();
    await page.getByRole('option').first().click();
    await win.shot('cancel-move');
    await yes.click();
    await expect.poll(held).toEqual([
      { job_id: jobId, sum: 0 },
      { job_id: otherId, sum: 5000 },
    ]);
    expect(win.faults).toEqual([]);
  });
});
