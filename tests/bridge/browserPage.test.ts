import { rmSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { say } from '#core/shared/text/say.ts';
import { findChromium, launchChromium } from '../helpers/chromium.ts';
import { freshDataDir } from './desktopApp.ts';
import { type RunningHost, startBrowserHost } from './hostProcess.ts';

const chromium = findChromium();

describe.skipIf(!chromium)(`the page in a browser${chromium ? '' : ' (skipped: no Chromium)'}`, () => {
  let browser: Browser;
  let dataDir: string;
  let host: RunningHost;

  beforeAll(async () => {
    if (chromium) browser = await launchChromium(chromium);
  });
  afterAll(async () => {
    await browser?.close();
  });
  beforeEach(async () => {
    dataDir = freshDataDir();
    host = await startBrowserHost(dataDir);
  });
  afterEach(async () => {
    await host.stop();
    rmSync(dataDir, { recursive: true, force: true });
  });

  /** Opens a tab and keeps what it complains of and asks for outside the host. */
  async function open(url: string): Promise<{ readonly page: Page; readonly trouble: string[] }> {
    const page = await (await browser.newContext()).newPage();
    page.setDefaultTimeout(5000);
    const trouble: string[] = [];
    page.on('console', (message) => {
      if (message.type() === 'error') trouble.push(message.text());
    });
    page.on('pageerror', (error) => trouble.push(error.message));
    page.on('request', (request) => {
      if (!request.url().startsWith(host.origin)) trouble.push(request.url());
    });
    await page.goto(url);
    return { page, trouble };
  }

  /** Waits until the page shows words at all; which ones is for the tests of the screens. */
  async function shown(page: Page): Promise<void> {
    await page.waitForFunction(() => document.getElementById('root')?.textContent.trim());
  }

  it('opens with its link, takes the code out of the address, and survives a reload', async () => {
    const { page, trouble } = await open(host.link);
    await shown(page);
    expect(page.url()).not.toContain('#');
    await page.reload();
    await shown(page);
    expect(await page.evaluate(() => document.cookie)).toBe('');
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  it('says plainly that a link was used already, and what gives a new one', async () => {
    const first = await open(host.link);
    await shown(first.page);
    const second = await open(host.link);
    await second.page.getByText(say('en', 'ui.noHost.link.next')).waitFor();
    await first.page.context().close();
    await second.page.context().close();
  });
});
