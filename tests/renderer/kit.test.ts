import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeOf } from '../helpers/axe.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();

/** The sheet of forms shows every widget once, so what holds there holds for what is built from them. */
describe.skipIf(choice === null)('the sheet of forms', () => {
  let win: ShopWindow;
  let page: Page;

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice, null);
    page = win.page;
    await page.evaluate(() => {
      location.hash = '/kit';
    });
    await page.getByRole('heading', { name: 'Fields' }).waitFor();
  });
  afterAll(() => win?.close());

  async function objections(rules?: readonly string[]): Promise<readonly string[]> {
    const axe = axeOf(page);
    const { violations } = await (rules ? axe.withRules([...rules]) : axe).analyze();
    return violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`);
  }

  it('has nothing that axe objects to', async () => {
    expect(await objections()).toEqual([]);
  });

  it('has text that axe can read against its ground in the light theme too', async () => {
    await page.evaluate(() => {
      document.documentElement.dataset['theme'] = 'light';
    });
    expect(await objections(['color-contrast'])).toEqual([]);
  });

  it('breaks no rule of the page’s security policy and throws nothing', () => {
    expect(win.faults).toEqual([]);
  });

  it('fits 1280 × 800 without the page itself scrolling', async () => {
    const scrolls = await page.evaluate(() => [
      document.documentElement.scrollWidth > 1280,
      document.documentElement.scrollHeight > 800,
    ]);
    expect(scrolls).toEqual([false, false]);
  });

  it('keeps every control at 24 px or more', async () => {
    const small = await page.evaluate(() =>
      [...document.querySelectorAll('button, input:not([class*="native"]), [role="slider"]')]
        .map((e) => ({ box: e.getBoundingClientRect(), name: e.textContent || e.getAttribute('aria-label') }))
        .filter(({ box }) => box.height > 0 && box.height < 23.5)
        .map(({ box, name }) => `${name} ${box.height}`),
    );
    expect(small).toEqual([]);
  });

  it('walks round the car with the arrows, one tab stop for all panels', async () => {
    const car = page.getByRole('group', { name: 'saloon', exact: true });
    expect(await car.locator('[tabindex="0"]').count()).toBe(1);
    await car.locator('[data-panel="lfd"]').focus();
    await page.keyboard.press('ArrowRight');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('data-panel'))).toBe('lmi');
    expect(await car.locator('[data-panel="lmi"]').getAttribute('aria-pressed')).toBe('true');
  });

  it('moves the tape from optimum to optimum by the keyboard', async () => {
    const tape = page.getByRole('slider', { name: 'ceiling' });
    await tape.focus();
    const before = await tape.getAttribute('aria-valuetext');
    await page.keyboard.press('ArrowLeft');
    expect(before).toBe('9.5 h');
    expect(await tape.getAttribute('aria-valuetext')).toBe('8 h');
    await page.keyboard.press('End');
    expect(await tape.getAttribute('aria-valuenow')).toBe('93');
  });

  it('opens a figure in place with its inputs, rule and source', async () => {
    const figure = page.getByTitle('Where this figure comes from').first();
    await figure.click();
    expect(await figure.getAttribute('aria-expanded')).toBe('true');
    await page.getByText('Own history, 62 jobs like it').waitFor();
  });

  it('refuses money with too many decimals in place and keeps what was there', async () => {
    const field = page.getByLabel('ceiling', { exact: false }).and(page.locator('input')).first();
    await field.fill('12.345');
    await field.press('Enter');
    await page.getByRole('alert').filter({ hasText: 'not a figure' }).waitFor();
    await field.press('Escape');
    await field.fill('1200');
    await field.press('Enter');
    expect(await field.inputValue()).toBe('1,200.00');
  });
});
