import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { callFrom, signInOwner } from '../e2e/pageCalls.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();
const SHOP = {
  ...{ name: 'Emberwick Paintwork', country: 'AT', zone: 'Europe/Vienna', currency: 'EUR', locale: 'en-GB' },
  ...{ filmUnit: 'um', volumeUnit: 'ml', lengthUnit: 'm', paper: 'A4' },
};

async function takeIn(page: Page, name: string): Promise<string> {
  const customer = (await callFrom(page, 'people.addCustomer', { name })) as { id: string };
  const car = { customerId: customer.id, body: 'saloon', makeModel: 'Velloy Merrin', plate: 'EW 41 TRN' };
  const vehicle = (await callFrom(page, 'people.addVehicle', car)) as { id: string };
  const wanted = { purpose: 'correction', wish: 'Swirls in the sun.' };
  const job = await callFrom(page, 'bookings.openJob', {
    customerId: customer.id,
    vehicleId: vehicle.id,
    ...wanted,
  });
  return (job as { jobId: string }).jobId;
}

async function goTo(page: Page, hash: string): Promise<void> {
  await page.evaluate((to) => {
    location.hash = to;
  }, hash);
}

describe.skipIf(choice === null)('the frame around every screen', () => {
  let win: ShopWindow;
  let page: Page;

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice, null);
    page = win.page;
  });
  afterAll(() => win?.close());

  it('shows no places before a shop is set up', async () => {
    expect(await page.getByRole('navigation').count()).toBe(0);
    const made = await callFrom(page, 'shop.setUp', { shop: SHOP, owner: { name: 'Orla Lark' } });
    expect(made).not.toBeNull();
    expect(await signInOwner(page)).toBe(true);
    await page.getByRole('navigation').waitFor();
    expect(await page.getByRole('navigation').getByRole('link').allTextContents()).toHaveLength(7);
  });

  it('says plainly that an address leads nowhere, and keeps the way back', async () => {
    await goTo(page, '/no/such/place');
    await page.getByText('There is nothing at this address.').first().waitFor();
    expect(await page.getByRole('navigation').count()).toBe(1);
  });

  it('keeps the job in hand while the person walks between places; Ctrl+J lays it down and picks it up', async () => {
    const first = await takeIn(page, 'Marit Vane');
    const second = await takeIn(page, 'Dev Ostler');
    await page.evaluate(
      ([current, down]) =>
        sessionStorage.setItem('rakelight.hand', JSON.stringify({ current, laidDown: [down] })),
      [first, second] as const,
    );
    await page.reload();
    const strip = page.getByRole('region', { name: 'Job in hand' });
    await strip.getByText('Marit Vane').waitFor();
    await goTo(page, '/money');
    expect(await strip.getByRole('link', { name: 'Marit Vane' }).count()).toBe(1);
    await page.keyboard.press('Control+j');
    await strip.getByRole('button', { name: 'Vane' }).waitFor();
    expect(await strip.getByRole('link').count()).toBe(0);
    await strip.getByRole('button', { name: 'Ostler' }).click();
    await strip.getByRole('link', { name: 'Dev Ostler' }).waitFor();
  });

  it('finds a customer by the beginning of the name and goes there with Enter', async () => {
    await page.keyboard.press('Control+k');
    await page.keyboard.type('mari');
    await page.getByRole('option', { name: 'Marit Vane' }).first().waitFor();
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => location.hash.startsWith('#/customers/'));
  });

  it('opens nobody that was found for fewer letters than stand there at Enter', async () => {
    await goTo(page, '/desk');
    await page.keyboard.press('Control+k');
    await page.keyboard.type('mari');
    await page.getByRole('option', { name: 'Marit Vane' }).first().waitFor();
    await page.keyboard.type('x');
    await page.keyboard.press('Enter');
    await page.waitForTimeout(300);
    expect(await page.evaluate(() => location.hash)).toBe('#/desk');
    await page.keyboard.press('Escape');
  });

  it('changes the look from the command bar and keeps it over a reload', async () => {
    await page.keyboard.press('Control+k');
    await page.keyboard.type('dark');
    await page.getByRole('option', { name: 'Dark' }).waitFor();
    await page.keyboard.press('Enter');
    await page.reload();
    expect(await page.evaluate(() => document.documentElement.dataset['theme'])).toBe('dark');
  });

  it('shows what another window wrote without being asked', async () => {
    const other = await takeIn(page, 'Greta Holm');
    await page.evaluate(
      (id) => sessionStorage.setItem('rakelight.hand', JSON.stringify({ current: id, laidDown: [] })),
      other,
    );
    await page.reload();
    const strip = page.getByRole('region', { name: 'Job in hand' });
    await strip.getByText('Greta Holm').waitFor();
    const found = (await callFrom(page, 'people.findCustomers', { text: 'Greta Holm' })) as { id: string }[];
    const seen = (await callFrom(page, 'people.customerPage', { customerId: found[0]?.id })) as {
      customer: { revision: number };
    };
    await callFrom(page, 'people.changeCustomer', {
      customerId: found[0]?.id,
      revision: seen.customer.revision,
      name: 'Greta Holm-Lindqvist',
    });
    await strip.getByText('Greta Holm-Lindqvist').waitFor();
  });
});
