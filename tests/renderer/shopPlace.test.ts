import { renameSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BaysSetupView } from '#core/shared/views/baysSetup.ts';
import type { BackupView } from '#core/shared/views/host.ts';
import type { ShopPage } from '#core/shared/views/shop.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openShopWindow, SAMPLE, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();
const DAY_MS = 86_400_000;

/** The Shop place as an owner changes it, over the real door and a real file. */
describe.skipIf(choice === null)('the Shop place', () => {
  let win: ShopWindow;
  const setup = (): Promise<BaysSetupView> => win.call<BaysSetupView>('bays.setup', {});

  async function choose(field: RegExp, option: string | RegExp): Promise<void> {
    await win.page.getByRole('button', { name: field }).last().click();
    await win.page.getByRole('option', { name: option }).first().click();
  }
  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice);
    await win.goTo('/shop');
  });
  afterAll(() => win?.close());

  it('renames a bay, adds one, corrects its first day, and asks for a last day before one ends', async () => {
    const { page } = win;
    await page.getByRole('button', { name: /^Bays and hours/ }).click();
    await page.getByLabel('name of the place').first().fill('Lamp bay');
    await page.getByLabel('name of the place').first().press('Enter');
    await expect.poll(async () => (await setup()).bays[0]?.name).toBe('Lamp bay');
    await page.getByLabel('name of the new place').fill('Coating room');
    await choose(/what it is for/, 'protection bay');
    await page.getByRole('button', { name: 'Add a place' }).click();
    await expect.poll(async () => (await setup()).bays.map((b) => b.name)).toContain('Coating room');
    // Nothing is planned in it yet: what it is for can still be changed.
    const row = page.getByRole('button', { name: 'First and last day of Coating room' }).locator('..');
    await row.getByRole('button', { name: /what it is for/ }).click();
    await page.getByRole('option', { name: 'correction bay' }).click();
    await expect
      .poll(async () => (await setup()).bays.find((b) => b.name === 'Coating room')?.kind)
      .toBe('correction');
    expect(await page.getByRole('alert').count()).toBe(0);
    await page.getByRole('button', { name: 'First and last day of Coating room' }).click();
    // It stood there a year before it was written down.
    await page.getByRole('group', { name: 'first day' }).getByRole('spinbutton').last().click();
    await page.keyboard.type('2025');
    await page.getByRole('button', { name: 'Begins on this day' }).click();
    await expect
      .poll(async () => (await setup()).bays.find((b) => b.name === 'Coating room')?.startedDay)
      .toMatch(/^2025-/);
    await win.shot('shop-bays');
    await win.holds();
  });

  it('keeps the boxes of a bay in one line while something is said below one of them', async () => {
    const name = win.page.getByLabel('name of the place').last();
    const typed = await name.inputValue();
    await name.fill('Room for coatings behind the old wash bay, with its lamps');
    await win.page.getByText('3 more letters fit.').waitFor();
    const kind = name.locator('xpath=ancestor::div[2]/..').getByRole('button', { name: /what it is for/ });
    const [box, beside] = await Promise.all([name.boundingBox(), kind.boundingBox()]);
    await name.fill(typed);
    expect(Math.abs((box?.y ?? 0) - (beside?.y ?? 99))).toBeLessThan(2);
  });

  it('keeps the week as it is typed, by keyboard, and refuses what cannot be read', async () => {
    const { page } = win;
    await page.getByText('Opening hours', { exact: true }).click();
    const sunday = page.getByLabel('Sun, the shop works');
    await sunday.fill('early');
    await sunday.press('Enter');
    await page
      .getByRole('alert')
      .getByText(/Type it as 08:00–17:00/)
      .waitFor();
    await sunday.fill('');
    await sunday.press('Tab');
    await page.keyboard.type('-');
    await page.keyboard.press('Tab');
    await expect.poll(async () => (await setup()).hours.filter((h) => h.weekday === 7)).toEqual([]);
    await win.shot('shop-hours');
    await win.holds();
  });

  it('says who works at cars, what they do and when', async () => {
    const { page } = win;
    await page.getByText('Skills and shifts', { exact: true }).click();
    await page.getByText('interior', { exact: true }).click();
    await expect
      .poll(async () => (await setup()).technicians[0]?.skills)
      .toEqual(['wash', 'correction', 'protection', 'inspection']);
    const monday = page.getByLabel('Mon, hours of Wren Tarn');
    await monday.fill('7-11, 12-16');
    await monday.press('Enter');
    await expect
      .poll(async () => (await setup()).technicians[0]?.shifts.filter((s) => s.weekday === 1))
      .toEqual([
        { weekday: 1, startMin: 420, endMin: 660 },
        { weekday: 1, startMin: 720, endMin: 960 },
      ]);
    await win.shot('shop-work');
    await win.holds();
  });

  it('says what an hour of somebody costs, asks about a digit too many, and takes it away', async () => {
    const { page } = win;
    type Row = { readonly personId: string; readonly fromDay: string; readonly hourMinor: number };
    const rows = () => win.call<Row[]>('access.hourCosts', {});
    const costs = async () => (await rows()).map((row) => row.hourMinor);
    await page.getByRole('button', { name: /^People/ }).click();
    await page.getByRole('button', { name: /^Wren Tarn/ }).click();
    const hour = page.getByLabel('cost of an hour');
    await hour.fill('28.50');
    await page.getByRole('button', { name: 'Say it from this day on', exact: true }).click();
    await expect.poll(costs).toEqual([2850]);
    await page.getByRole('cell', { name: '€28.50' }).waitFor();
    await hour.fill('2850');
    await page.getByRole('button', { name: /^Say it/ }).click();
    await page
      .getByRole('alert')
      .getByText(/a digit may be wrong/)
      .waitFor();
    await win.shot('shop-hour-cost');
    await win.holds();
    const meant = page.getByRole('button', { name: 'It is meant: keep it' });
    // Another figure is another question.
    await hour.fill('28500');
    await expect.poll(() => meant.count()).toBe(0);
    await hour.fill('2850');
    await page.getByRole('button', { name: /^Say it/ }).click();
    await meant.click();
    await expect.poll(costs).toEqual([285_000]);
    const [stood] = await rows();
    await page.getByRole('button', { name: /^Take away what holds from/ }).click();
    await expect.poll(costs).toEqual([]);
    // Said elsewhere for the same day after it was typed here: not over it unseen.
    await hour.fill('30');
    const same = { personId: stood?.personId, fromDay: stood?.fromDay };
    await win.call('access.setHourCost', { ...same, hourCostMinor: 3100, wasMinor: null });
    await page.getByRole('cell', { name: '€31.00' }).waitFor();
    await page.getByRole('button', { name: /^Say it/ }).click();
    await page.getByRole('alert').waitFor();
    expect(await costs()).toEqual([3100]);
    await page.getByRole('button', { name: /^Say it/ }).click();
    await expect.poll(costs).toEqual([3000]);
    expect(await page.getByRole('alert').count()).toBe(0);
    await page.getByRole('button', { name: /^Take away what holds from/ }).click();
    await expect.poll(costs).toEqual([]);
    await page.getByRole('button', { name: /^Bays and hours/ }).click();
  });

  it('closes days and takes the closure back', async () => {
    const { page } = win;
    await page.getByText('Closed days, absences', { exact: true }).click();
    await page.getByText('None. On a closed day', { exact: false }).waitFor();
    await win.call('bays.addClosure', { fromDay: '2031-12-24', toDay: '2031-12-26', reason: 'holidays' });
    await page.reload();
    await page.getByRole('button', { name: /^Bays and hours/ }).click();
    await page.getByText('Closed days, absences', { exact: true }).click();
    await page.getByText('the whole shop, holidays').waitFor();
    await page.getByText('Wed 24 Dec 2031 – Fri 26 Dec 2031').waitFor();
    await win.shot('shop-away');
    await win.holds();
    await page.getByRole('button', { name: 'Remove', exact: true }).click();
    await expect.poll(async () => (await setup()).closures).toEqual([]);
  });

  it('keeps what is typed when another window saves the shop, and says what that changed', async () => {
    const { page } = win;
    await page.getByRole('button', { name: /^The shop/ }).click();
    await page.getByLabel('telephone').fill('0555 014 900');
    const { shop } = await win.call<{ shop: { revision: number } }>('shop.page', {});
    await win.call('shop.update', { revision: shop.revision, email: 'desk@emberwick.example' });
    await page
      .getByRole('status')
      .getByText(/e-mail.*desk@emberwick\.example/)
      .waitFor();
    expect(await page.getByLabel('telephone').inputValue()).toBe('0555 014 900');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await expect
      .poll(async () => (await win.call<{ shop: unknown }>('shop.page', {})).shop)
      .toMatchObject({ phone: '0555 014 900', email: 'desk@emberwick.example' });
    await page.getByRole('status').getByText('saved', { exact: true }).waitFor();
  });

  it('sets a new price of a package of the list for the same work, and ends it with its work kept', async () => {
    const { page } = win;
    const work = { wish: 'protect', interior: true, protection: 'coating', bodies: ['hatch'] };
    await win.call('shop.setPackage', { name: 'Wash and seal', ...work, priceMinor: 24_000 });
    await page.getByRole('button', { name: /^Packages and surcharges/ }).click();
    await page.getByLabel('name, as printed').fill('Wash and seal');
    const shown = page.getByRole('button', { name: /^work/ }).last();
    await expect.poll(() => shown.textContent()).toMatch(/protect/i);
    expect(await page.getByRole('checkbox', { name: 'hatch', exact: true }).isChecked()).toBe(true);
    await page.getByLabel('price', { exact: true }).fill('0');
    await page.getByLabel('price', { exact: true }).press('Tab');
    expect(await page.getByRole('button', { name: 'Set this package' }).getAttribute('title')).toBe(
      'A package costs more than nothing. Leave the price empty to end it.',
    );
    await page.getByLabel('price', { exact: true }).fill('260');
    await page.getByLabel('price', { exact: true }).press('Tab');
    await win.holds();
    await win.shot('shop-package');
    await page.getByRole('button', { name: 'Set this package' }).click();
    const row = async () => (await win.call<ShopPage>('shop.page', {})).packages[0];
    await expect.poll(async () => (await row())?.priceMinor).toBe(26_000);
    expect(await row()).toMatchObject(work);
    await page.getByLabel('name, as printed').fill('Wash and seal');
    await page.getByRole('button', { name: 'Offer it no longer' }).click();
    await expect.poll(async () => (await row())?.priceMinor).toBeNull();
    expect(await row()).toMatchObject(work);
  });

  it('changes everything that the shop says about itself', async () => {
    const { page } = win;
    await page.getByRole('button', { name: /^The shop/ }).click();
    await choose(/^country/, 'United Kingdom');
    await choose(/^currency/, /British Pound/);
    await choose(/dates and figures written as/, /Ireland/);
    await page.getByText('fl oz', { exact: true }).click();
    await page.getByText('ft', { exact: true }).click();
    await page.getByText('Letter', { exact: true }).click();
    await win.shot('shop-details');
    await win.holds();
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await expect
      .poll(async () => (await win.call<{ shop: unknown }>('shop.page', {})).shop)
      .toMatchObject({
        ...{ country: 'GB', currency: 'GBP', locale: 'en-IE' },
        ...{ volumeUnit: 'floz', lengthUnit: 'ft', paper: 'Letter' },
      });
  });

  it('lists what is still placed with a leaver, with the way to the board', async () => {
    const { page } = win;
    await page.getByRole('button', { name: /^People/ }).click();
    await page.getByRole('button', { name: /^Wren Tarn/ }).click();
    const day = page.getByRole('group', { name: 'last day' });
    await day.getByRole('spinbutton').first().click();
    await page.keyboard.type('31122030');
    await page.getByText('Nothing is placed with them after that day.').waitFor();
    await win.shot('shop-leaver');
    await win.holds();
    await page.getByRole('button', { name: 'Ends on this day' }).click();
    await page.getByText(/until 31 Dec 2030/).waitFor();
  });

  it('shows a technician what is theirs, and says plainly what is not', async () => {
    if (!choice) return;
    const other = await openShopWindow(choice, {
      ...SAMPLE,
      people: [{ name: 'Wren Tarn', role: 'technician' }],
    });
    const { page } = other;
    await other.goTo('/who');
    await page.getByRole('button', { name: /sign out/ }).click();
    await page.getByRole('button', { name: /^Wren Tarn/ }).click();
    await page.getByRole('navigation').first().waitFor();
    await other.goTo('/figures');
    await page.getByText('This is for the owner.').waitFor();
    await other.shot('not-yours');
    await other.holds();
    await page.getByRole('link', { name: 'Sign in as somebody else' }).waitFor();
    await other.goTo('/shop');
    await page.getByLabel(/^new PIN/).fill('8152');
    await page.getByLabel('the same PIN again').fill('8125');
    await page.getByText('The two PINs are not the same.').waitFor();
    await page.getByLabel('the same PIN again').fill('8152');
    await page.getByRole('button', { name: 'Set the PIN' }).click();
    await page.getByRole('button', { name: 'Remove the PIN' }).waitFor();
    await other.shot('shop-mine');
    await other.holds();
    expect(other.faults).toEqual([]);
    await other.close();
  });

  it('lights a day without a copy, makes one, and goes back to it after a plain question', async () => {
    const { page } = win;
    const [first] = await win.call<BackupView[]>('host.backups', {});
    const old = new Date(Date.now() - 3 * DAY_MS).toISOString().slice(0, 10);
    const name = first?.fileName ?? '';
    const dir = path.join(win.folder, 'backups');
    renameSync(path.join(dir, name), path.join(dir, name.replace(/^[\d-]{10}/, old)));
    await page.getByRole('button', { name: /^Copies/ }).click();
    await page.getByText(/^none on /).waitFor();
    await page.getByRole('button', { name: 'Copy now' }).click();
    await page.getByText(/Safe as of today/).waitFor();
    await win.shot('shop-copies');
    await win.holds();
    await win.call('people.addCustomer', { name: 'Ilse Tarne', phone: '0555 777 888' });
    await page.getByRole('button', { name: /^Go back to the copy of today/ }).click();
    await page
      .getByRole('alertdialog')
      .getByText(/kept aside/)
      .waitFor();
    await win.shot('shop-goBack');
    await win.holds();
    await page.keyboard.press('Escape');
    await expect.poll(() => page.getByRole('alertdialog').count()).toBe(0);
    await page.getByRole('button', { name: /^Go back to the copy of today/ }).click();
    await page.getByRole('button', { name: 'Go back to this copy' }).click();
    await expect
      .poll(() => win.call<unknown[] | null>('people.findCustomers', { text: 'Ilse' }), { timeout: 8000 })
      .toEqual([]);
    await page.getByText(/^The shop is again as it was on/).waitFor();
    await page.getByText(/The file before it was not deleted: it lies in .*aside-/).waitFor();
    await win.shot('shop-wentBack');
    await page.getByRole('button', { name: 'Seen' }).click();
    await expect.poll(() => page.getByText(/^The shop is again/).count()).toBe(0);
    expect(win.faults).toEqual([]);
  });
});
