import type { Browser } from 'playwright-core';
import { CHANNEL } from '../../electron/channels.ts';
import { PAGE_URL } from '../../electron/security.ts';
import { freshDataDir, startOnStandin } from './desktopApp.ts';
import type { BridgeWindow } from './pageTypes.ts';
import type { Standin } from './standin/harness.ts';

/** What is looked at, each by trying it. True means it holds. */
export type Probe = Readonly<Record<ProbeName, boolean>>;
export type ProbeName =
  | 'bridgeAnswers'
  | 'sandboxedAll'
  | 'noInlineScript'
  | 'noOtherFetch'
  | 'noTraversal'
  | 'onlyGet'
  | 'staysOnPage'
  | 'handsOutside'
  | 'framesStayOnPage'
  | 'redirectsStayOnPage'
  | 'noWindow'
  | 'noPermission'
  | 'noDevice'
  | 'nothingLeaks'
  | 'senderChecked'
  | 'nothingGotOut';

/** Starts a built program on the stand-in and tries everything. Throws when it does not even open its window. */
export async function probe(browser: Browser, dist?: string): Promise<Probe> {
  const app = await startOnStandin(browser, freshDataDir(), dist);
  try {
    const page = await app.firstWindow();
    const facts = await app.standin.facts();
    await app.evaluate(({ shell }) => {
      const opened: string[] = [];
      Object.assign(globalThis, { opened });
      shell.openExternal = async (url) => void opened.push(url);
    });
    const inside = await page.evaluate(tryFromPage);
    await page.evaluate(() => void setTimeout(() => location.assign('https://example.invalid/away')));
    await page.waitForTimeout(400);
    const opened = await app.evaluate(() => (globalThis as unknown as { opened: string[] }).opened);
    const stops = await app.evaluate(tryGuards);
    const denied = app.standin.denied();
    return {
      ...inside,
      sandboxedAll: facts.sandboxedAll,
      staysOnPage: denied.includes('navigate https://example.invalid/away') && page.url().includes('.app.'),
      handsOutside:
        opened.includes('https://example.invalid/away') && !opened.some((url) => url.startsWith('file')),
      framesStayOnPage: stops.frame,
      redirectsStayOnPage: stops.redirect,
      noWindow: denied.includes('window https://example.invalid/window'),
      noDevice: !facts.deviceGranted,
      senderChecked: await strangersRefused(app.standin),
      nothingGotOut: app.standin.blocked().length === 0,
    };
  } finally {
    await app.close();
  }
}

/** Runs in the main process. The page's policy already forbids frames and nothing redirects, so these are told. */
function tryGuards({ BrowserWindow }: typeof import('electron')): { frame: boolean; redirect: boolean } {
  const stopped = (name: string): boolean => {
    let prevented = false;
    const preventDefault = (): void => {
      prevented = true;
    };
    const event = { url: 'https://example.invalid/', preventDefault };
    BrowserWindow.getAllWindows()[0]?.webContents.emit(name as 'will-redirect', event as never);
    return prevented;
  };
  return { frame: stopped('will-frame-navigate'), redirect: stopped('will-redirect') };
}

type FromPage = Pick<
  Probe,
  | 'bridgeAnswers'
  | 'noInlineScript'
  | 'noOtherFetch'
  | 'noTraversal'
  | 'onlyGet'
  | 'noPermission'
  | 'nothingLeaks'
>;

/** Runs in the page. */
async function tryFromPage(): Promise<FromPage> {
  const { rakelight } = window as unknown as BridgeWindow;
  const wait = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));
  const status = (url: string, method = 'GET'): Promise<number> =>
    fetch(url, { method }).then(
      (answer) => answer.status,
      () => 0,
    );
  const bridgeAnswers = await Promise.race([
    rakelight.call({ name: 'host.info', input: {} }).then(
      (reply) => reply.ok,
      () => false,
    ),
    wait(2000).then(() => false),
  ]);
  const script = document.createElement('script');
  script.textContent = 'window.ran = true';
  document.body.append(script);
  window.open('https://example.invalid/window');
  const permission = await navigator.permissions.query({ name: 'geolocation' });
  const other = await status('https://example.invalid/data');
  const traversal = await Promise.all(
    ['/..%2fversion.json', '/%2e%2e%2fversion.json', '/..%5cversion.json'].map((url) => status(url)),
  );
  const posted = await status('/index.html', 'POST');
  await wait(200);
  const kinds = Object.values(rakelight).map((part) => typeof part);
  return {
    bridgeAnswers,
    noInlineScript: !('ran' in window),
    noOtherFetch: other === 0,
    noTraversal: traversal.every((answer) => answer === 404),
    onlyGet: posted === 403,
    noPermission: permission.state !== 'granted',
    nothingLeaks:
      kinds.every((kind) => kind === 'function' || kind === 'string') &&
      !['require', 'process', 'ipcRenderer', 'standinSend'].some(
        (name) => name in window || name in rakelight,
      ),
  };
}

/** Calls as if they came from another page, from a frame inside our page, and from nowhere. */
async function strangersRefused(standin: Standin): Promise<boolean> {
  const own = { url: PAGE_URL, parent: null };
  const call = { name: 'host.info', input: {} };
  const strangers = [
    { url: 'https://example.invalid/', parent: null },
    { url: `${PAGE_URL.slice(0, -1)}.example.invalid/`, parent: null },
    { url: PAGE_URL, parent: own },
    { url: '', parent: null },
  ];
  const refused = await Promise.all(
    strangers.map((frame) =>
      standin.invokeAs(frame, CHANNEL.call, call).then(
        () => false,
        (error: unknown) => String(error).includes('not from our own page'),
      ),
    ),
  );
  const answered = await standin.invokeAs(own, CHANNEL.call, call).then(
    () => true,
    () => false,
  );
  return answered && refused.every(Boolean);
}
