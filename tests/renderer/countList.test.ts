import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findChromium } from '../helpers/chromium.ts';
import { openShopWindow, PLAIN, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();
const LONG = 'Heavy-cut compound, grey, for hard clear coats, repaired panels and everything after sanding';
const HEAD = 'item,barcode,place,unit,asOf,counted';

/** The day's count by hand in the window: counted there, and read back from a list. */
describe.skipIf(choice === null)('the count list in the window', () => {
  let win: ShopWindow;
  let page: Page;

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice, PLAIN);
    page = win.page;
    const item = { unit: 'ul', packSize: 1_000_000, packWord: 'bottle', place: 'B2' };
    const opening = { amount: 620_000, valueMinor: 2554 };
    for (const name of [LONG, 'Glass cleaner', 'Panel wipe'])
      await win.call('stock.addItem', { ...item, name, opening });
  });
  afterAll(() => win?.close());

  const choose = (lines: readonly string[]): Promise<void> =>
    page.locator('input[type=file]').setInputFiles({
      name: 'count.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from([HEAD, ...lines].join('\r\n')),
    });

  it('says so when there is nothing to count', async () => {
    await win.goTo('/stock/count');
    await page.getByText('Every item was counted within its turn').waitFor();
    await win.holds();
    await win.shot('count-none');
  });

  it('has what was asked for, and takes a figure there', async () => {
    await win.call('stock.askCount', { all: true });
    await page.getByText('whole count, never counted').first().waitFor();
    await page.locator('[data-count]').first().getByRole('button', { name: 'Count', exact: true }).click();
    await page.getByLabel('On the shelf now').fill('600');
    await page.keyboard.press('Enter');
    await win.holds();
    await win.shot('count-list');
    await page.getByRole('button', { name: 'Save the count' }).click();
    await expect.poll(() => win.rows('SELECT qty FROM stock_level WHERE qty = 600000').length).toBe(1);
  });

  it('reads UTF-16, names letters of another coding, and says when a file is too long', async () => {
    const send = (buffer: Buffer): Promise<void> =>
      page.locator('input[type=file]').setInputFiles({ name: 'count.csv', mimeType: 'text/csv', buffer });
    const list = `${HEAD}\r\nPanel wipe,,,ml,3,600\r\n`;
    await send(Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from(list, 'utf16le')]));
    await page.getByText('1 line: 1 counted, 0 without a figure.').waitFor();
    await send(
      Buffer.concat([Buffer.from(`${HEAD}\r\nT`), Buffer.from([0xfc]), Buffer.from('cher,,,ml,1,2')]),
    );
    await page
      .getByText('Line 2: it holds letters that cannot be read; save the list as CSV in UTF-8')
      .waitFor();
    // short enough as a file, too long once each quote is sent as two bytes
    await send(Buffer.from(`${HEAD}\r\n${'"","","","","",""\r\n'.repeat(40_000)}`));
    await page.getByText(/^This file is too long/).waitFor();
    await win.holds();
  });

  it('names the faulty lines of a list, and takes a good one over', async () => {
    await choose(['Glass cleaner,,,litre,1,2', 'Wax,,,ml,1,2', `"${LONG}",,,ml,1,630`]);
    await page.getByText('Line 2, unit: it has to be one of ml, g, m, piece').waitFor();
    await page.getByText('Line 3, item: no item kept is called so').waitFor();
    await win.holds();
    await win.shot('count-faults');
    await choose([`"${LONG}",,,ml,1,630`, 'Panel wipe,,,ml,3,']);
    await page.getByText('2 lines: 1 counted, 1 without a figure.').waitFor();
    await page.getByText(/630 ml, 10 ml more than the stock list had/).waitFor();
    await page.getByRole('button', { name: 'Take the counts over' }).click();
    await page.getByText('1 count taken over.').waitFor();
    await win.call('stock.askCount', { all: true });
    await page.clock.setFixedTime(Date.now() + 366 * 86_400_000);
    await page.reload();
    const year = new RegExp(`whole count, counted .* ${new Date().getFullYear()}$`);
    await page.getByText(year).first().waitFor();
    await page.clock.setFixedTime(Date.now());
    expect(win.rows('SELECT qty FROM stock_level ORDER BY qty')).toEqual([
      { qty: 600_000 },
      { qty: 620_000 },
      { qty: 630_000 },
    ]);
    expect(win.faults).toEqual([]);
  });

  it('says what all stock was worth at the end of a day', async () => {
    await win.goTo('/stock/lists');
    const today = new Date();
    await page.getByRole('spinbutton', { name: /day/ }).first().click();
    const parts = [today.getDate(), today.getMonth() + 1, today.getFullYear()];
    await page.keyboard.type(parts.map((n) => String(n).padStart(2, '0')).join(''));
    await page.locator('[data-worth]').waitFor();
    await win.holds();
    await win.shot('stock-worth');
    expect(win.faults).toEqual([]);
  });
});
