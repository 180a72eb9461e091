import type { Page } from 'playwright-core';
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

  it('can be walked by Tab from page to page, each stop with a ring around it', async () => {
    for (const path of ['', '/week', '/hours', '/honesty', '/money', '/what-if']) {
      await shop.goTo(`#/figures${path}`);
      await shop.page.getByRole('navigation', { name: 'Pages of the figures' }).waitFor();
      // What is still being read may come between two stops: then it is walked once more.
      await expect
        .poll(async () => {
          const { reached, ringless } = await walked(shop.page);
          return {
            path,
            ringless,
            reached: reached.join(' | '),
            all: (await pressable(shop.page)).join(' | '),
          };
        })
        .toSatisfy((w: { ringless: readonly string[]; reached: string; all: string }) => {
          return w.ringless.length === 0 && w.reached === w.all;
        });
    }
  });
});

/** Words of what can be pressed in the place, in order; a cell of the heat stands for all of them. */
function pressable(page: Page): Promise<readonly string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('main a, main button')]
      .filter((e) => e.tabIndex >= 0 && e.offsetParent !== null)
      .map((e) => e.getAttribute('aria-label') ?? e.textContent ?? ''),
  );
}

/** What Tab comes to between the first link of the place and its end, and which of it shows nothing of that. */
async function walked(page: Page): Promise<{ reached: readonly string[]; ringless: readonly string[] }> {
  const [reached, ringless]: [string[], string[]] = [[], []];
  // Forth and back, so that the first one has come by the keyboard too.
  await page.locator('main a').first().focus();
  for (const key of ['Tab', 'Shift+Tab']) await page.keyboard.press(key);
  for (;;) {
    const stop = await page.evaluate(() => {
      const at = document.activeElement as HTMLElement;
      const ringed = (e: Element | null): boolean =>
        e !== null &&
        getComputedStyle(e).outlineStyle !== 'none' &&
        getComputedStyle(e).outlineWidth !== '0px';
      const word = at.getAttribute('aria-label') ?? at.textContent ?? '';
      const shown = ringed(at) || ringed(at.closest('label')) || ringed(at.parentElement);
      return at.closest('main') ? { word, shown, press: at.matches('a, button') } : null;
    });
    if (!stop) return { reached, ringless };
    if (stop.press) reached.push(stop.word);
    if (!stop.shown) ringless.push(stop.word);
    await page.keyboard.press('Tab');
  }
}
