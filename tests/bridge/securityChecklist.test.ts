import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { harden, isOwnUrl, isTrustedFrame, outsideUrl } from '../../electron/security.ts';
import { CONTENT_POLICY, readStatic } from '../../electron/staticFiles.ts';
import { findChromium, launchChromium } from '../helpers/chromium.ts';
import { type DesktopApp, DIST, ROOT, startOnStandin } from './desktopApp.ts';
import type { Facts } from './standin/contract.ts';

const chromium = findChromium();

function filesOf(folder: string): readonly string[] {
  return readdirSync(path.join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
    .map((entry) => path.join(entry.parentPath, entry.name));
}
const sources = filesOf('electron').map((file) => readFileSync(file, 'utf8'));

describe.skipIf(!chromium)('Electron’s security checklist, on the running window', () => {
  let browser: Browser;
  let app: DesktopApp;
  let facts: Facts;

  beforeAll(async () => {
    if (!chromium) return;
    browser = await launchChromium(chromium);
    const started = await startOnStandin(browser);
    app = started;
    await app.firstWindow();
    facts = await started.standin.facts();
  });
  afterAll(async () => {
    await app?.close();
    await browser?.close();
  });

  it('loads only its own secure content', async () => {
    const page = await app.firstWindow();
    const loaded = await page.evaluate(() =>
      performance.getEntriesByType('resource').map((r) => new URL(r.name).origin),
    );
    expect(new Set([...loaded, new URL(page.url()).origin])).toEqual(new Set([new URL(page.url()).origin]));
    expect(app.standin?.blocked()).toEqual([]);
    expect(
      await app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows()[0]?.webContents.getURL()),
    ).toMatch(/^app:\/\/rakelight\//);
  });

  it.each([
    ['nodeIntegration', false],
    ['nodeIntegrationInSubFrames', false],
    ['nodeIntegrationInWorker', false],
    ['contextIsolation', true],
    ['sandbox', true],
    ['webSecurity', true],
    ['allowRunningInsecureContent', false],
    ['experimentalFeatures', false],
    ['webviewTag', false],
    ['enableBlinkFeatures', undefined],
  ] as const)('sets %s to %s itself, for its only window', (name, value) => {
    expect(facts.preferences).toHaveLength(1);
    expect(facts.preferences[0]?.[name]).toBe(value);
  });

  it('puts every renderer into the sandbox', () => {
    expect(facts.sandboxedAll).toBe(true);
  });

  it('gives its scheme the rights of a secure site and no right to pass the page’s policy', () => {
    expect(facts.privileges).toEqual({
      app: { standard: true, secure: true, supportFetchAPI: true, codeCache: true },
    });
  });

  it('answers exactly the channels that the preload uses', () => {
    const preload = readFileSync(path.join(DIST, 'electron/preload.cjs'), 'utf8');
    const invoked = facts.channels.filter((channel) => preload.includes(`"${channel}"`));
    expect(invoked).toEqual(facts.channels);
    expect(facts.channels.every((channel) => channel.startsWith('rakelight:'))).toBe(true);
  });
});

describe('Electron’s security checklist, by rule', () => {
  it('takes an address for its own only by scheme and host together', () => {
    expect(['app://rakelight/', 'app://rakelight/jobs?x#y'].filter(isOwnUrl)).toHaveLength(2);
    const foreign = [
      'app://rakelight.example.invalid/',
      'app://other/',
      'https://rakelight/',
      'file:///rakelight/',
      'javascript:app://rakelight/',
      'app:rakelight',
      '',
    ];
    expect(foreign.filter(isOwnUrl)).toEqual([]);
  });

  it('trusts no frame inside a page, no other page and no frame that is gone', () => {
    const own = { url: 'app://rakelight/', parent: null };
    const trusted = [
      own,
      { url: 'app://rakelight/', parent: own },
      { url: 'https://x.invalid/', parent: null },
      null,
    ];
    expect(trusted.map((frame) => isTrustedFrame(frame as never))).toEqual([true, false, false, false]);
  });

  it('hands only parsed https, mailto and tel addresses to the system', () => {
    expect(outsideUrl('https://example.invalid/sheet')).toBe('https://example.invalid/sheet');
    expect(outsideUrl('mailto:desk@example.invalid')).toBe('mailto:desk@example.invalid');
    expect(outsideUrl('tel:+4315550100')).toBe('tel:+4315550100');
    const kept = [
      'http://example.invalid/',
      'file:///etc/passwd',
      'javascript:alert(1)',
      'data:text/html,x',
      'smb://host/share',
      'https://user@example.invalid/',
      'not an address',
    ];
    expect(kept.filter((url) => outsideUrl(url) !== null)).toEqual([]);
  });

  it('denies permission requests, permission checks and devices', () => {
    const answers: unknown[] = [];
    const session = {
      setPermissionRequestHandler: (h: (c: null, p: string, a: (granted: boolean) => void) => void) =>
        h(null, 'media', (granted) => answers.push(granted)),
      setPermissionCheckHandler: (h: () => boolean) => answers.push(h()),
      setDevicePermissionHandler: (h: () => boolean) => answers.push(h()),
    };
    harden({ on: () => undefined } as never, session as never, () => undefined);
    expect(answers).toEqual([false, false, false]);
  });

  it('has a page policy that starts from nothing and has no exception', () => {
    const rules = CONTENT_POLICY.split('; ');
    expect(rules[0]).toBe("default-src 'none'");
    expect(CONTENT_POLICY).not.toMatch(/unsafe|\*|data:|https?:|frame-src|object-src/);
  });

  it('has no inline script, style or handler in the built page', () => {
    const page = readFileSync(path.join(DIST, 'renderer/index.html'), 'utf8');
    expect(page).not.toMatch(/<script(?![^>]*\ssrc=)[^>]*>|<style|\son\w+=|javascript:/i);
  });

  it('reads no file outside the page’s folder, whatever the path is written like', async () => {
    const root = path.join(DIST, 'renderer');
    const tries = [
      '/../version.json',
      '/%2e%2e/version.json',
      '/..%2fversion.json',
      '/a/../../version.json',
      '//etc/hosts.txt',
    ];
    expect(await Promise.all(tries.map((at) => readStatic(root, at)))).toEqual(tries.map(() => null));
    expect((await readStatic(root, '/'))?.type).toBe('text/html; charset=utf-8');
  });

  it('uses neither remote content nor switches that weaken the browser', () => {
    for (const text of sources)
      expect(text).not.toMatch(
        /loadURL\(['"`]http|loadFile|appendSwitch|disable-web-security|no-sandbox|bypassCSP|webviewTag: true/,
      );
  });

  it('runs a maintained Electron: exactly the version that the lock names', () => {
    const { devDependencies } = JSON.parse(readFileSync(path.join(ROOT, 'package.json'), 'utf8'));
    expect(devDependencies.electron).toMatch(/^\d+\.\d+\.\d+$/);
    expect(Number(devDependencies.electron.split('.')[0])).toBeGreaterThanOrEqual(45);
  });
});
