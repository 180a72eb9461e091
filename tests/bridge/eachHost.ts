import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe } from 'vitest';
import { findChromium, launchChromium } from '../helpers/chromium.ts';
import { type DesktopApp, electronProgram, startOnElectron, startOnStandin } from './desktopApp.ts';

const chromium = findChromium();
const electron = electronProgram();
const HOSTS = [
  { kind: 'stand-in', title: chromium ? 'stand-in' : 'stand-in (skipped: no Chromium)' },
  { kind: 'electron', title: electron ? 'electron' : 'electron (skipped: its runtime is not installed)' },
] as const;

/** The same tests on the stand-in and on the real runtime, each on a freshly started program. */
export function onEachHost(title: string, tests: (app: () => DesktopApp) => void): void {
  describe.each(HOSTS)(`${title}, on $title`, ({ kind }) => {
    describe.skipIf(kind === 'stand-in' ? !chromium : !electron)('from the built program', () => {
      let browser: Browser | null = null;
      let app: DesktopApp;

      beforeAll(async () => {
        if (kind === 'stand-in' && chromium) browser = await launchChromium(chromium);
      });
      afterAll(async () => {
        await browser?.close();
      });
      beforeEach(async () => {
        app = browser ? await startOnStandin(browser) : await startOnElectron(String(electron));
      });
      afterEach(async () => {
        await app.close();
      });
      tests(() => app);
    });
  });
}
