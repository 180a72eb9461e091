import { mkdirSync, mkdtempSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { localDayOf } from '#core/shared/time.ts';
import { startProgram } from '../bridge/hostProcess.ts';
import { callFrom } from '../e2e/pageCalls.ts';
import { findChromium, launchChromium } from '../helpers/chromium.ts';
import { openShopWindow, SAMPLE, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();
const DAY_MS = 86_400_000;

/** A small demo shop that was built nine days ago, where the demo of a data folder lies. */
async function agedDemo(folder: string): Promise<void> {
  if (!choice) return;
  const dir = path.join(folder, 'demo');
  mkdirSync(dir);
  const host = startProgram('start', ['--browser', '--data', dir]);
  const [, url = ''] = await host.said(/Rakelight is ready at (\S+)/);
  const browser = await launchChromium(choice);
  const page = await (await browser.newContext()).newPage();
  await page.goto(url);
  await page.locator('main').first().waitFor();
  const demoDay = localDayOf(Date.now() - 9 * DAY_MS, SAMPLE.shop.zone);
  const { token: _, ...owner } = SAMPLE.owner;
  expect(await callFrom(page, 'shop.setUp', { ...SAMPLE, owner, demoDay })).toHaveProperty('ownerId');
  await browser.close();
  await host.stop();
}

/** From the first start into the demo shop and out again. */
describe.skipIf(choice === null)('the demo shop', () => {
  let win: ShopWindow;

  beforeAll(async () => {
    if (!choice) return;
    const folder = mkdtempSync(path.join(os.tmpdir(), 'rakelight-demo-'));
    await agedDemo(folder);
    win = await openShopWindow(choice, null, folder);
  }, 30_000);
  afterAll(() => win?.close());

  it('opens from the first start, offers to be built anew when it has aged, and is left again', async () => {
    const { page } = win;
    await win.shot('first-start');
    await win.holds();
    await page.getByRole('button', { name: 'Open the demo shop' }).click();
    await page.getByRole('button', { name: /^Dev Ostler/ }).click();
    await page.getByText('built around a day 9 days ago', { exact: false }).waitFor();
    await page.getByRole('button', { name: 'Build it anew around today' }).waitFor();
    await win.goTo('/shop');
    await page.getByText('This is the demo shop', { exact: false }).waitFor();
    await win.shot('demo-shop');
    await win.holds();
    await page.getByRole('button', { name: 'Leave the demo shop' }).click();
    await page.getByRole('button', { name: 'Set up my shop' }).waitFor();
    expect(await win.call('shop.state', {})).toEqual({ setUp: false });
    expect(win.faults).toEqual([]);
  });
});
