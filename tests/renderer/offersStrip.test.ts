import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findChromium } from '../helpers/chromium.ts';
import { type BoardShop, openBoardShop } from './boardShop.ts';

const choice = findChromium();

/** The dated offers below the board, by keyboard alone. */
describe.skipIf(choice === null)('the offers of the job in hand', () => {
  let shop: BoardShop;

  beforeAll(async () => {
    if (!choice) return;
    shop = await openBoardShop(choice);
    const id = await shop.newJob('Marit Vane', 'Velloy Tern');
    await shop.page.evaluate((current) => {
      const hand = JSON.stringify({ current, laidDown: [] });
      localStorage.setItem('rakelight.hand', hand);
      sessionStorage.setItem('rakelight.hand', hand);
      location.hash = '/bays';
    }, id);
    await shop.page.reload();
  });
  afterAll(() => shop?.close());

  it('arrows choose among them, each says why it is not earlier, and Enter books the one with the focus', async () => {
    const { page } = shop;
    const offers = page.getByRole('region', { name: 'Offers' });
    await offers.getByRole('article').nth(2).waitFor();
    const letters = offers.locator('[aria-pressed]');
    await letters.first().focus();
    await expect.poll(() => offers.locator('kbd').textContent()).toBe('Enter');
    for (const [key, letter] of [
      ['ArrowRight', 'B'],
      ['ArrowRight', 'C'],
      ['ArrowLeft', 'B'],
    ] as const) {
      await page.keyboard.press(key);
      const focus = () => page.evaluate(() => document.activeElement?.textContent ?? '');
      await expect.poll(focus).toMatch(new RegExp(`^${letter}`));
      const shown = offers.locator('article[data-shown="true"]');
      await expect.poll(() => shown.textContent()).toMatch(/Why not earlier\? \S+/);
    }
    await page.keyboard.press('Enter');
    await expect.poll(async () => (await shop.board()).promises.length).toBe(1);
  });
});
