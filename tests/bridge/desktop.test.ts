import { existsSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { findChromium, launchChromium } from '../helpers/chromium.ts';
import { type DesktopApp, electronProgram, startOnElectron, startOnStandin } from './desktopApp.ts';
import type { BridgeWindow } from './pageTypes.ts';

const chromium = findChromium();
const electron = electronProgram();

describe.each([
  { kind: 'stand-in', title: chromium ? 'stand-in' : 'stand-in (skipped: no Chromium)' },
  { kind: 'electron', title: electron ? 'electron' : 'electron (skipped: its runtime is not installed)' },
] as const)('the desktop window on $title', ({ kind }) => {
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

    it('carries a call from the page through preload, main and worker to SQLite and back', async () => {
      const page = await app.firstWindow();
      const reply = await page.evaluate(() =>
        (window as unknown as BridgeWindow).rakelight.call({ name: 'host.info', input: {} }),
      );
      expect(reply).toMatchObject({ ok: true, value: { dataDir: app.dataDir, isDemo: false } });
    });

    it('answers a name that is not in the catalogue, and a call that is none, without touching the core', async () => {
      const page = await app.firstWindow();
      const replies = await page.evaluate(() => {
        const { call } = (window as unknown as BridgeWindow).rakelight;
        return Promise.all([
          call({ name: 'no.suchThing', input: {} }),
          call({ name: 'toString', input: {} }),
          call({ name: 7, input: {} } as never),
        ]);
      });
      expect(replies.map((reply) => (reply.ok ? 'ok' : reply.error.code))).toEqual([
        'UNKNOWN_COMMAND',
        'UNKNOWN_COMMAND',
        'BAD_INPUT',
      ]);
    });

    it('tells the page which topics became stale, until it stops listening', async () => {
      const page = await app.firstWindow();
      const heard = await page.evaluate(async () => {
        const { call, onTouched } = (window as unknown as BridgeWindow).rakelight;
        const topics: string[] = [];
        const stop = onTouched((names) => topics.push(...names));
        await call({ name: 'host.leaveDemo', input: {} });
        await new Promise((done) => setTimeout(done, 300));
        stop();
        await call({ name: 'host.leaveDemo', input: {} });
        await new Promise((done) => setTimeout(done, 300));
        return topics;
      });
      expect(heard).toEqual(['*']);
    });

    it('gives the page nothing of Node or Electron, only a frozen bridge', async () => {
      const page = await app.firstWindow();
      const found = await page.evaluate(() => ({
        node: ['require', 'process', 'module', 'Buffer', 'global', 'standinSend'].filter(
          (n) => n in globalThis,
        ),
        frozen: Object.isFrozen((window as unknown as BridgeWindow).rakelight),
        bridge: Object.keys((window as unknown as BridgeWindow).rakelight).sort(),
      }));
      expect(found).toEqual({
        node: [],
        frozen: true,
        bridge: [
          'call',
          'cancel',
          'copyText',
          'host',
          'onProgress',
          'onTouched',
          'openDocument',
          'openFile',
          'printWindow',
          'saveFile',
        ],
      });
    });

    it('runs no inline script, sends nothing to other addresses and serves no file from outside its folder', async () => {
      const page = await app.firstWindow();
      const violated = await page.evaluate(
        () =>
          new Promise((done) => {
            document.addEventListener('securitypolicyviolation', (e) => done(e.effectiveDirective), {
              once: true,
            });
            const script = document.createElement('script');
            script.textContent = 'window.ran = true';
            document.body.append(script);
            setTimeout(() => done('ran' in window ? 'ran' : 'nothing happened'), 1000);
          }),
      );
      expect(violated).toBe('script-src-elem');
      const fetched = await page.evaluate(async () => {
        const status = (url: string): Promise<string> =>
          fetch(url).then(
            (r) => String(r.status),
            () => 'refused',
          );
        return [
          await status('https://example.invalid/'),
          await status('/..%2f..%2fpackage.json'),
          await status('/%2e%2e/version.json'),
          await status('/a%00b.js'),
          await status('/.sources'),
        ];
      });
      expect(fetched).toEqual(['refused', '404', '404', '404', '404']);
    });

    it('stays on its page and opens no window, but hands a plain https address to the system', async () => {
      const page = await app.firstWindow();
      const before = page.url();
      await app.evaluate(({ shell }) => {
        const opened: string[] = [];
        Object.assign(globalThis, { opened });
        shell.openExternal = async (url) => void opened.push(url);
      });
      await page.evaluate(() => {
        window.open('https://example.invalid/sheet');
        window.open('file:///etc/passwd');
        location.href = 'https://example.invalid/away';
      });
      const opened = (): Promise<string[]> =>
        app.evaluate(() => [...(globalThis as unknown as { opened: string[] }).opened].sort());
      await expect.poll(opened).toEqual(['https://example.invalid/away', 'https://example.invalid/sheet']);
      expect(page.url()).toBe(before);
      expect(await app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows().length)).toBe(1);
    });

    it('saves bytes where the person says, opens only what it saved, and only kinds that cannot be run', async () => {
      const page = await app.firstWindow();
      const target = path.join(app.dataDir, 'plan.ics');
      await app.evaluate(({ dialog, shell }, filePath) => {
        dialog.showSaveDialog = (async () => ({ canceled: false, filePath })) as never;
        shell.openPath = async () => '';
      }, target);
      const found = await page.evaluate(
        async (other) => {
          const { saveFile, openFile, openDocument } = (window as unknown as BridgeWindow).rakelight;
          const bytes = new Uint8Array([0, 127, 128, 255]);
          const { saved } = await saveFile({ fileName: '../plan.ics', mime: 'text/calendar', bytes });
          return {
            saved,
            own: await openFile(saved ?? ''),
            other: await openFile(other),
            pdf: await openDocument({ fileName: 'quote.pdf', mime: 'application/pdf', bytes }),
            program: await openDocument({ fileName: 'quote.desktop', mime: 'application/pdf', bytes }),
          };
        },
        path.join(app.dataDir, 'rakelight.sqlite'),
      );
      expect(found).toEqual({
        saved: target,
        own: { opened: true },
        other: { opened: false },
        pdf: { opened: true },
        program: { opened: false },
      });
      expect([...(await readFile(target))]).toEqual([0, 127, 128, 255]);
    });

    it('prints its page to a PDF from the menu', async () => {
      await app.firstWindow();
      const target = path.join(app.dataDir, 'page.pdf');
      await app.evaluate(({ dialog, Menu }, filePath) => {
        dialog.showSaveDialog = (async () => ({ canceled: false, filePath })) as never;
        Menu.getApplicationMenu()?.getMenuItemById('save-page')?.click();
      }, target);
      const head = async (): Promise<string> =>
        (await readFile(target).catch(() => Buffer.alloc(0))).subarray(0, 5).toString();
      await expect.poll(head, { timeout: 5000 }).toBe('%PDF-');
    });

    it('puts text on the clipboard for the page', async () => {
      const page = await app.firstWindow();
      await page.evaluate(() => (window as unknown as BridgeWindow).rakelight.copyText('Tür 3, 1.240 €'));
      expect(await app.evaluate(({ clipboard }) => clipboard.readText())).toBe('Tür 3, 1.240 €');
    });

    it('closes the shop’s file and its lock before it ends', async () => {
      await app.firstWindow();
      expect(existsSync(path.join(app.dataDir, 'rakelight.lock'))).toBe(true);
      const kept = path.join(app.dataDir, 'kept');
      await writeFile(kept, '');
      const ended = app.standin?.exited();
      await app.evaluate(({ app: program }) => void setTimeout(() => program.quit(), 50));
      if (ended) expect(await ended).toBe(0);
      const left = (): boolean =>
        ['rakelight.lock', 'rakelight.token', 'rakelight.sqlite-wal'].some((f) =>
          existsSync(path.join(app.dataDir, f)),
        );
      await expect.poll(left, { timeout: 5000 }).toBe(false);
    });
  });
});
