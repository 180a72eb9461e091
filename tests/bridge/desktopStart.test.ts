import { chmodSync, existsSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { runWindow, whyNoWindow } from '../../electron/desktopStart.ts';
import { findChromium, launchChromium } from '../helpers/chromium.ts';
import { DIST, freshDataDir } from './desktopApp.ts';
import { startBrowserHost } from './hostProcess.ts';
import { launchStandin, type Standin } from './standin/harness.ts';

const chromium = findChromium();
let dataDir: string;

beforeEach(() => {
  dataDir = freshDataDir();
});
afterEach(() => {
  rmSync(dataDir, { recursive: true, force: true });
});

describe.skipIf(!chromium)('the main process of the window', () => {
  let browser: Browser;

  beforeAll(async () => {
    if (chromium) browser = await launchChromium(chromium);
  });
  afterAll(async () => {
    await browser?.close();
  });

  function start(env: Readonly<Record<string, string>> = {}, ...more: readonly string[]): Promise<Standin> {
    const main = path.join(DIST, 'electron/main.js');
    return launchStandin(browser, { main, args: ['--data', dataDir, ...more], env });
  }

  it('refuses a folder that the browser host has open, with its sentence and exit code', async () => {
    const host = await startBrowserHost(dataDir);
    const second = await start();
    expect(await second.exited()).toBe(13);
    expect(second.log()).toContain(`already running on ${dataDir} (process ${host.child.pid})`);
    await host.stop();
  });

  it('leaves it to the one that is there when it is started a second time', async () => {
    const second = await start({ STANDIN_SECOND: '1' });
    expect(await second.exited()).toBe(0);
    expect(second.log()).toContain('its window was brought to the front');
    expect(existsSync(path.join(dataDir, 'rakelight.sqlite'))).toBe(false);
  });

  it('refuses a damaged shop file and an unknown option before it opens a window', async () => {
    writeFileSync(path.join(dataDir, 'rakelight.sqlite'), 'no shop file'.repeat(999));
    const damaged = await start();
    expect(await damaged.exited()).toBe(18);
    expect(damaged.log()).toContain('does not read cleanly');
    const odd = await start({}, '--bay');
    expect(await odd.exited()).toBe(2);
  });
});

describe('starting the window', () => {
  /** A program of our own in place of the runtime. */
  function runtime(script: string): string {
    const file = path.join(dataDir, 'runtime');
    writeFileSync(file, `#!/bin/sh\n${script}\n`);
    chmodSync(file, 0o755);
    return file;
  }

  it('is not tried without a display, nor as root on Linux', () => {
    expect(whyNoWindow('linux', {}, 1000)?.why).toMatch(/no display/);
    expect(whyNoWindow('linux', { DISPLAY: ':0' }, 0)?.why).toMatch(/the root user/);
    expect(whyNoWindow('linux', { DISPLAY: ':0' }, 1000)).toBeNull();
    expect(whyNoWindow('darwin', {}, 0)).toBeNull();
    expect(whyNoWindow('win32', {}, undefined)).toBeNull();
  });

  it.skipIf(process.platform === 'win32').each([
    ['that lacks a system library', 'exit 127', /exit 127/],
    ['that crashes', 'kill -SEGV $$', /SIGSEGV/],
    ['that ends well without having opened anything', 'exit 0', /exit 0/],
  ])('falls back, with the reason, from a runtime %s', async (_what, script, reason) => {
    expect(await runWindow(runtime(script), { dataDir, demo: false })).toEqual({
      why: expect.stringMatching(reason),
    });
  });

  it('falls back from a runtime that cannot be run at all', async () => {
    const ended = await runWindow(path.join(dataDir, 'nowhere'), { dataDir, demo: false });
    expect(ended).toEqual({ why: expect.stringContaining('ENOENT') });
  });

  it.skipIf(process.platform === 'win32')(
    'does not fall back from a refusal, nor after the window was open',
    async () => {
      expect(await runWindow(runtime('exit 13'), { dataDir, demo: false })).toBe(13);
      const opened = runtime('echo "Rakelight is open in its window."; exit 7');
      expect(await runWindow(opened, { dataDir, demo: false })).toBe(7);
    },
  );
});
