import { expect, it } from 'vitest';
import { onEachHost } from './eachHost.ts';
import type { BridgeWindow } from './pageTypes.ts';

onEachHost('the desktop window', (get) => {
  it('shows its page, without an error and without asking for anything outside', async () => {
    const app = get();
    const page = await app.firstWindow();
    await page.waitForFunction(() => document.getElementById('root')?.textContent.trim());
    expect(await page.title()).toBe('Rakelight');
    if (app.standin)
      expect([app.standin.log(), app.standin.blocked()]).toEqual([expect.not.stringContaining('[page]'), []]);
  });

  it('carries a call from the page through preload, main and worker to SQLite and back', async () => {
    const app = get();
    const page = await app.firstWindow();
    const reply = await page.evaluate(() =>
      (window as unknown as BridgeWindow).rakelight.call({ name: 'host.info', input: {} }),
    );
    expect(reply).toMatchObject({ ok: true, value: { dataDir: app.dataDir, isDemo: false } });
  });

  it('answers a name that is not in the catalogue, and a call that is none, without touching the core', async () => {
    const app = get();
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
    const app = get();
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
    const app = get();
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
    const app = get();
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
    const app = get();
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
});
