import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { JobView } from '#core/shared/views/bookings.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();

/** A call, from the first letter to dates that are booked, by keyboard. */
describe.skipIf(choice === null)('taking a call', () => {
  let win: ShopWindow;
  const found = (text: string): Promise<unknown[]> => win.call<unknown[]>('people.findCustomers', { text });
  async function newCall(): Promise<void> {
    await win.goTo('/desk');
    await win.page.getByRole('main', { name: 'Desk' }).waitFor();
    await win.goTo('/take-in?next');
    await win.page.getByLabel(/^who/).waitFor();
    const anew = win.page.getByRole('button', { name: 'Begin a new call' });
    if (await anew.isVisible()) await anew.click();
    await expect.poll(() => win.page.getByLabel(/^who/).inputValue()).toBe('');
  }
  const inHand = async (): Promise<JobView> => {
    const { rows } = await win.call<{ rows: { id: string; number: number }[] }>('bookings.jobs', {});
    const newest = [...rows].sort((a, b) => b.number - a.number)[0];
    return win.call<JobView>('bookings.job', { jobId: newest?.id });
  };

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice);
    await win.call('people.addCustomer', { name: 'Ilse Tarne', phone: '0555 777 888' });
  });
  afterAll(() => win?.close());

  it('asks whether it is somebody known before a job is opened, and writes nobody twice', async () => {
    const { page } = win;
    await newCall();
    await page.getByLabel(/^who/).fill('Ilsa Tarn');
    await page.getByLabel('telephone').fill('+49 555 777888');
    await page.getByText('Same telephone, 2 letters off.').waitFor();
    await page.keyboard.press('Control+Enter');
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.textContent))
      .toContain('That’s them');
    expect(await found('ilsa')).toEqual([]);
    await page.keyboard.press('Enter');
    await expect.poll(() => page.getByLabel(/^who/).inputValue()).toBe('Ilse Tarne');
    expect(await found('tarn')).toHaveLength(1);
  });

  it('takes somebody of the same name by going back to the question with the keyboard', async () => {
    const { page } = win;
    await newCall();
    await page.getByLabel(/^who/).fill('Ilse Tarne');
    await page.getByRole('button', { name: 'That’s them' }).waitFor();
    await page.getByLabel('telephone').fill('0555 000 111');
    await page.keyboard.press('Shift+Tab');
    await page.waitForTimeout(300);
    await page.keyboard.press('Enter');
    await page.getByText('kept', { exact: true }).waitFor();
    expect(await found('tarne')).toHaveLength(1);
  });

  it('opens the job by Ctrl Enter with the focus on a closed list too', async () => {
    const { page } = win;
    await newCall();
    await page.getByLabel(/^who/).fill('Bo Lund');
    await page.getByLabel('make and model').fill('Korrin Neu');
    await page.getByRole('button', { name: /^how far/ }).focus();
    await page.keyboard.press('Control+Enter');
    await page.getByText(/^Job \d+ is kept/).waitFor();
    expect(await page.getByRole('option').count()).toBe(0);
  });

  it('opens the job by Ctrl Enter from every part of a date too, and keeps what was typed there', async () => {
    const { page } = win;
    await newCall();
    await page.getByLabel(/^who/).fill('Käthe Brömmel');
    await page.getByLabel('make and model').fill('Korrin Neu');
    const part = (name: RegExp) => page.getByRole('spinbutton', { name });
    await part(/^day/).focus();
    await page.keyboard.type('03122030');
    await part(/^hour/).focus();
    await page.keyboard.type('1715');
    await page.keyboard.press('Control+Enter');
    await page.getByText(/^Job \d+ is kept/).waitFor();
    expect(await part(/^hour/).textContent()).toBe('17');
    expect((await inHand()).customer.name).toBe('Käthe Brömmel');
    await newCall();
    await page.getByLabel(/^who/).fill('Öle Fjord');
    await page.getByLabel('make and model').fill('Korrin Neu');
    await page.getByRole('button', { name: /calendar/i }).focus();
    await page.keyboard.press('Control+Enter');
    await page.getByText(/^Job \d+ is kept/).waitFor();
    expect(await page.getByRole('dialog').count()).toBe(0);
  });

  it('opens no job over a date that was begun and not ended: half a date is not none', async () => {
    const { page } = win;
    await newCall();
    await page.getByLabel(/^who/).fill('Jördis Half');
    await page.getByLabel('make and model').fill('Korrin Neu');
    const part = (name: RegExp) => page.getByRole('spinbutton', { name });
    await part(/^day/).focus();
    await page.keyboard.type('03');
    await page.keyboard.press('Control+Enter');
    await page.getByText(/^Nothing was saved: what is typed at “back by”/).waitFor();
    expect(await part(/^month/).evaluate((box) => box === document.activeElement)).toBe(true);
    expect((await inHand()).customer.name).not.toBe('Jördis Half');
    // A year of two digits is the year 30: asked for in full, neither guessed nor saved.
    await page.keyboard.type('1230');
    await part(/^hour/).focus();
    await page.keyboard.type('1715');
    await page.keyboard.press('Control+Enter');
    await page.getByText('write the year in full', { exact: true }).waitFor();
    expect(await part(/^year/).evaluate((box) => box === document.activeElement)).toBe(true);
    await page.keyboard.type('2030');
    await page.keyboard.press('Control+Enter');
    await page.getByText(/^Job \d+ is kept/).waitFor();
    expect((await inHand()).wantedByMin).not.toBeNull();
  });

  it('goes on with a call that was left half way, after a walk and after the window was closed', async () => {
    const { page } = win;
    await newCall();
    await page.getByLabel(/^who/).fill('Jörg Weißhaupt');
    await page.getByLabel('telephone').fill('0555 333 444');
    await page.getByLabel('in their words').fill('Pfütze aus Harz auf dem Dach');
    await page.getByText('in money', { exact: true }).click();
    await page.getByLabel('not above, with tax').fill('1200');
    await page.keyboard.press('Tab');
    await page.getByText('kept', { exact: true }).waitFor();
    await win.goTo('/desk');
    await page.getByRole('main', { name: 'Desk' }).waitFor();
    await win.goTo('/take-in');
    await page.getByText(/^Goes on from today/).waitFor();
    await page.reload();
    await page.getByText(/^Goes on from today/).waitFor();
    expect(await page.getByLabel(/^who/).inputValue()).toBe('Jörg Weißhaupt');
    expect(await page.getByLabel('in their words').inputValue()).toBe('Pfütze aus Harz auf dem Dach');
    expect(await page.getByLabel('not above, with tax').inputValue()).toBe('1,200.00');
    await win.shot('take-in-goes-on');
    await win.holds();
    await page.getByLabel('not above, with tax').fill('1100');
    await page.keyboard.press('Control+Enter');
    await page.getByRole('button', { name: /A$/ }).first().waitFor();
    expect(await found('weißhaupt')).toHaveLength(1);
    const { number, wish, ceilingMinor } = await inHand();
    expect(wish).toBe('Pfütze aus Harz auf dem Dach');
    // Typed and sent by the keys at once, without leaving the field.
    expect(ceilingMinor).toBe(110_000);
    await page.reload();
    await page.getByText(`Job ${number} is kept and in hand`, { exact: false }).waitFor();
    await page.getByRole('button', { name: 'Begin a new call' }).click();
    await expect.poll(() => page.getByLabel(/^who/).inputValue()).toBe('');
    await page.reload();
    await page.getByLabel(/^who/).waitFor();
    expect(await page.getByText(/^Goes on from/).count()).toBe(0);
  });

  it('offers dates at once, estimates anew when the wish changes, and Enter books A', async () => {
    const { page } = win;
    await newCall();
    await page.getByLabel(/^who/).fill('Wilhelmine-Änne von und zu Ostermünde-Überlingen am Weißen Se');
    await page.getByLabel('telephone').fill('0555 014 207');
    await page.getByLabel('make and model').fill('Velloy Tern');
    await page.getByLabel('in their words').fill('Swirls in the sun.');
    await page.keyboard.press('Control+Enter');
    await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe('books A');
    await win.shot('take-in-offers');
    await win.holds();
    const before = await inHand();
    await page.getByText('interior too', { exact: true }).click();
    await page.getByLabel('in their words').fill('Swirls in the sun, and the seats.');
    await expect.poll(async () => (await inHand()).wish).toBe('Swirls in the sun, and the seats.');
    await expect
      .poll(async () => (await inHand()).hours.p50Min ?? 0)
      .toBeGreaterThan(before.hours.p50Min ?? 0);
    expect(await page.getByRole('alert').count()).toBe(0);
    await page.getByRole('button', { name: 'books A' }).focus();
    await page.keyboard.press('b');
    await page.getByRole('button', { name: 'books B' }).waitFor();
    await page.keyboard.press('a');
    await page.getByRole('button', { name: 'books A' }).waitFor();
    await page.keyboard.press('Enter');
    await page.getByText(/^Booked: comes/).waitFor();
    await win.shot('take-in-booked');
    await win.holds();
    const after = await inHand();
    expect(after.state).toBe('booked');
    await page.keyboard.press('Enter');
    await expect.poll(() => page.evaluate(() => location.hash)).toBe(`#/jobs/${after.id}/quote`);
    expect(win.faults).toEqual([]);
  });

  it('keeps the last wish although an answer was lost on the way', async () => {
    const { page } = win;
    await newCall();
    await page.getByLabel(/^who/).fill('Orla Fennimore');
    await page.getByLabel('telephone').fill('0555 014 208');
    await page.keyboard.press('Control+Enter');
    await page.getByRole('button', { name: /A$/ }).first().waitFor();
    await page.route('**/rpc', (route) =>
      route.request().postData()?.includes('"bookings.job"') ? route.abort() : route.continue(),
    );
    const wish = () => win.rows('SELECT wish FROM job ORDER BY number DESC')[0]?.['wish'];
    await page.getByLabel('in their words').fill('Swirls.');
    await expect.poll(wish).toBe('Swirls.');
    await page
      .getByText(/working part stopped/)
      .first()
      .waitFor();
    await page.unroute('**/rpc');
    await page.getByLabel('in their words').fill('Swirls, and the seats.');
    await expect.poll(wish).toBe('Swirls, and the seats.');
    await expect.poll(() => page.getByRole('alert').count()).toBe(0);
  });

  it('never writes the next caller over the one before', async () => {
    const { page } = win;
    await newCall();
    await page.getByLabel(/^who/).fill('Ólafur Þórsson');
    await page.getByLabel('telephone').fill('0555 014 333');
    await page.keyboard.press('Control+Enter');
    await page.getByRole('button', { name: /A$/ }).first().waitFor();
    await page.getByLabel(/^who/).fill('Zoë Nuñez-O’Brien');
    await page.keyboard.press('Tab');
    await page.getByText('Ólafur Þórsson is kept here, and this reads like somebody else.').waitFor();
    await win.shot('take-in-other');
    await win.holds();
    await page.getByRole('button', { name: 'A new call for Zoë Nuñez-O’Brien' }).click();
    await expect.poll(() => page.getByLabel(/^who/).inputValue()).toBe('Zoë Nuñez-O’Brien');
    expect(await page.getByLabel('telephone').inputValue()).toBe('');
    expect(await found('Þórsson')).toHaveLength(1);
    await page.getByLabel('telephone').fill('0555 014 444');
    await page.keyboard.press('Control+Enter');
    await page.getByRole('button', { name: /A$/ }).first().waitFor();
    await page.keyboard.press('Control+Enter');
    await page.getByText(/^Booked: comes/).waitFor();
    expect(await page.getByLabel(/^who/).isDisabled()).toBe(true);
    await page.evaluate(() => {
      location.hash = '/take-in?next';
    });
    await expect.poll(() => page.getByLabel(/^who/).inputValue()).toBe('');
    expect(await page.getByLabel(/^who/).isDisabled()).toBe(false);
    expect(await found('Nuñez')).toHaveLength(1);
  });

  it('says of the price whether tax is in it, as the shop’s prices are', async () => {
    const { page } = win;
    await newCall();
    await page.getByText('with tax', { exact: true }).waitFor();
    const { shop } = await win.call<{ shop: { revision: number } }>('shop.page', {});
    const net = (value: boolean) => [{ setting: 'billing.pricesIncludeTax', value }];
    await win.call('shop.changeSettings', { revision: shop.revision, changes: net(false) });
    await page.getByText('before tax', { exact: true }).waitFor();
    await win.call('shop.changeSettings', { revision: shop.revision + 1, changes: net(true) });
    await page.getByText('with tax', { exact: true }).waitFor();
  });

  it('takes a name that was put right as the same person’s', async () => {
    const { page } = win;
    await newCall();
    await page.getByLabel(/^who/).fill('Kaspar Lindt');
    await page.getByLabel('telephone').fill('0555 014 555');
    await page.keyboard.press('Tab');
    await page.getByText('kept', { exact: true }).waitFor();
    await page.getByLabel(/^who/).fill('Käspar Lindth');
    await page.keyboard.press('Tab');
    await expect.poll(async () => (await found('Lindth')).length).toBe(1);
    expect(win.faults).toEqual([]);
  });
});
