import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBatchDoor } from '#core/host/batchDoor.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { buildDemo, demoNow, SEED } from '../../seed/build.ts';
import { type HostProcess, startProgram } from '../bridge/hostProcess.ts';
import { signInOwner } from '../e2e/pageCalls.ts';
import { idsFor } from '../e2e/shotIds.ts';
import { SHOT_ROUTES } from '../e2e/shotRoutes.ts';
import { axeOf } from '../helpers/axe.ts';
import { findChromium, launchChromium } from '../helpers/chromium.ts';
import { NARROW, narrowFaults } from '../helpers/narrow.ts';

const choice = findChromium();
const NOW = demoNow('2026-11-25' as LocalDay);
const HISTORY_DAYS = 60;

async function smallDemo(folder: string): Promise<void> {
  const door = await openBatchDoor(folder, path.resolve(import.meta.dirname, '../../migrations'), SEED, 0);
  door.batch(() => buildDemo(door, { nowMs: NOW, historyDays: HISTORY_DAYS }, () => {}));
  door.close();
}

/** What a screen gets wrong: accessibility rules, its one first heading, a page that scrolls as a whole. */
async function faultsOf(page: Page, theme: 'dark' | 'light'): Promise<readonly unknown[]> {
  const axe = axeOf(page);
  // The light theme differs in its colours alone.
  const { violations } = await (theme === 'dark' ? axe : axe.withRules(['color-contrast'])).analyze();
  const headings = await page.locator('h1').count();
  const scrolls = await page.evaluate(
    () =>
      document.documentElement.scrollHeight > innerHeight ||
      document.documentElement.scrollWidth > innerWidth,
  );
  return [
    ...violations.map((v) => [v.id, v.nodes.map((n) => n.html.slice(0, 300))]),
    ...(headings === 1 ? [] : [`${headings} first headings`]),
    ...(scrolls ? ['the page scrolls as a whole'] : []),
  ];
}

describe.skipIf(choice === null)('every screen of a shop in full work', () => {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'rakelight-every-'));
  let host: HostProcess;
  let browser: Browser;
  let page: Page;
  let ids: Readonly<Record<string, string>> = {};

  beforeAll(async () => {
    if (!choice) return;
    await smallDemo(folder);
    host = startProgram('start', ['--browser', '--data', folder], {
      RAKELIGHT_CLOCK: new Date(NOW).toISOString(),
    });
    const [, url = ''] = await host.said(/Rakelight is ready at (\S+)/);
    browser = await launchChromium(choice);
    page = await (await browser.newContext({ reducedMotion: 'reduce' })).newPage();
    page.setDefaultTimeout(8000);
    await page.setViewportSize({ width: 1280, height: 800 });
    await page.clock.setFixedTime(new Date(NOW));
    await page.goto(url);
    await page.locator('main').first().waitFor();
    await signInOwner(page);
    ids = await idsFor(page);
    const hand = { current: ids['jobId'], laidDown: [ids['bookedId'], ids['readyId']] };
    await page.evaluate((kept) => sessionStorage.setItem('rakelight.hand', JSON.stringify(kept)), hand);
    await page.reload();
    await page.locator('[data-fact]').first().waitFor();
  }, 180_000);
  afterAll(async () => {
    await browser?.close();
    await host?.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  it.each(SHOT_ROUTES.map((route) => [route.name, route] as const))(
    '%s can be used by everybody',
    async (_, route) => {
      const at = route.path.replace(/:(\w+)/g, (_all, name: string) => ids[name] ?? '');
      for (const theme of ['dark', 'light'] as const) {
        await page.evaluate(
          ([hash, chosen]) => {
            location.hash = hash;
            document.documentElement.dataset['theme'] = chosen;
          },
          [at, theme] as const,
        );
        await page.locator('main').first().waitFor();
        if (route.ready) await page.locator(route.ready).first().waitFor();
        await page.waitForFunction(() => document.querySelector('[aria-busy="true"]') === null);
        expect({ theme, faults: await faultsOf(page, theme) }).toEqual({ theme, faults: [] });
      }
      await page.setViewportSize(NARROW);
      expect(await narrowFaults(page)).toEqual([]);
      await page.setViewportSize({ width: 1280, height: 800 });
    },
  );

  it('and the answer to a what-if, asked by keyboard alone, then asked again and stopped', async () => {
    await page.evaluate(() => {
      location.hash = '/figures/what-if';
    });
    await page.getByRole('textbox', { name: 'Cars that ask change by' }).focus();
    await page.keyboard.type('60');
    for (const key of ['Tab', 'Tab', 'Tab', 'Enter']) await page.keyboard.press(key);
    await page.getByText('Middle of 100 runs', { exact: false }).waitFor();
    expect(await page.getByRole('status').first().textContent()).toMatch(/more jobs a week/);
    for (const theme of ['dark', 'light'] as const) {
      await page.evaluate((chosen) => {
        document.documentElement.dataset['theme'] = chosen;
      }, theme);
      expect({ theme, faults: await faultsOf(page, theme) }).toEqual({ theme, faults: [] });
    }
    await page.getByRole('button', { name: 'Run it' }).click();
    await page.getByText(/^\d+ % through$/).waitFor();
    await page.getByRole('button', { name: 'Stop, keep the runs so far' }).click();
    await page.getByText(/^Stopped (after|before)/).waitFor();
  });

  it('runs no what-if past a box that cannot be read, and takes that back with the rest', async () => {
    await page.evaluate(() => {
      location.hash = '/figures/what-if';
    });
    const price = page.getByRole('textbox', { name: 'Prices change by' });
    await price.fill('99999');
    await price.press('Tab');
    await page.getByRole('button', { name: 'Run it' }).click();
    await page.getByText('Not run: what is typed at “Prices change by”', { exact: false }).waitFor();
    expect(await page.getByText(/^\d+ of 111$/).count()).toBe(0);
    await page.getByRole('button', { name: 'Take it all back' }).click();
    expect(await price.inputValue()).toBe('0');
    expect(await page.getByText('Not run:', { exact: false }).count()).toBe(0);
  });
});
