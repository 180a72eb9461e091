import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findChromium } from '../helpers/chromium.ts';
import { openShopWindow, SAMPLE, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();
/** A Wednesday on which the shop has been open for some hours. */
const NOON = { ms: Date.parse('2026-11-25T12:00Z'), zone: 'Europe/Vienna' };

describe.skipIf(choice === null)('the look back of a shop on its first day', () => {
  let shop: ShopWindow;
  beforeAll(async () => {
    if (choice) shop = await openShopWindow(choice, SAMPLE, undefined, NOON);
  });
  afterAll(() => shop?.close());

  it('asks for nothing this week, and says what it looked at', async () => {
    await shop.goTo('#/figures/week');
    await shop.page.getByText('Nothing asks for a hand this week.').waitFor();
    await shop.page.getByText('Looked at, and all right').waitFor();
    await shop.shot('figures-week-empty');
    await shop.holds();
  });

  it('walks the hours by the arrow keys, opens a cell by Enter, and shows them as a table', async () => {
    const { page } = shop;
    await shop.goTo('#/figures/hours');
    const cells = page.getByRole('table', { name: 'Hours of bays and people' }).getByRole('button');
    await cells.first().waitFor();
    // One cell is in the tab order: the last week of the first bay.
    const home = page.locator('[data-at][tabindex="0"]');
    expect(await home.getAttribute('data-at')).toBe('0/25');
    await home.focus();
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowDown');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('data-at'))).toBe('1/24');
    await page.keyboard.press('Enter');
    await page.getByRole('region', { name: /^Wren Tarn, / }).waitFor();
    await page.getByText('No job behind it').waitFor();
    await shop.holds();
    // Esc from wherever the keyboard is by then closes it, and goes back to its cell.
    await page.getByRole('button', { name: 'Close', exact: true }).focus();
    await page.keyboard.press('Escape');
    await page.getByText('No job behind it').waitFor({ state: 'detached' });
    expect(await page.evaluate(() => document.activeElement?.getAttribute('data-at'))).toBe('1/24');
    await page.getByRole('button', { name: 'Table', exact: true }).click();
    await page.getByRole('columnheader', { name: 'closed' }).waitFor();
  });

  it('ends the hours with today: what is still to come is not told as closed', async () => {
    const { page } = shop;
    await shop.goTo('#/figures/week');
    await shop.goTo('#/figures/hours');
    await page.getByText('day', { exact: true }).click();
    const last = page.locator('[data-at="0/27"]');
    await last.waitFor();
    expect(await last.getAttribute('aria-label')).toContain('in use');
    expect(await page.locator('[data-at="0/28"]').count()).toBe(0);
    await shop.holds();
  });

  it('says what belongs on the honest hours and the money, where there is none yet', async () => {
    const { page } = shop;
    await shop.goTo('#/figures/honesty');
    await page.getByText('Finished stages show here').waitFor();
    await shop.shot('figures-honesty-empty');
    await shop.holds();
    await shop.goTo('#/figures/money');
    await page.getByText('Quotes that were answered').waitFor();
    await shop.shot('figures-money-empty');
    await shop.holds();
  });
});
