import type { Page, Route } from 'playwright-core';
import type { Running } from './harness.ts';
import type { WindowPage } from './windowPage.ts';

/** What happened on the network's edge. */
export type Seen = { readonly blocked: string[]; readonly denied: string[]; log: string };

/** Chromium refuses to go to an unknown scheme, so each is served under an https address of its own. */
const SUFFIX = 'standin.invalid';

/** `app://host/path` as the browser sees it. */
export function toRealUrl(url: string, schemes: readonly string[]): string {
  const parts = /^([a-z][a-z0-9+.-]*):\/\/([^/]+)(.*)$/i.exec(url);
  if (!parts || !schemes.includes(parts[1] ?? '')) return url;
  return `https://${parts[2]}.${parts[1]}.${SUFFIX}${parts[3] || '/'}`;
}

/** A browser's address as the program sees it. */
export function toProgramUrl(url: string, schemes: readonly string[]): string {
  const real = URL.parse(url);
  const parts = real?.host.endsWith(`.${SUFFIX}`) ? real.host.slice(0, -SUFFIX.length - 1).split('.') : [];
  const scheme = parts.pop() ?? '';
  return real !== null && schemes.includes(scheme)
    ? `${scheme}://${parts.join('.')}${real.pathname}${real.search}${real.hash}`
    : url;
}

/** Serves the program's scheme, asks before navigations and windows, lets nothing else through. */
export async function intercept(running: Running): Promise<void> {
  await running.context.route('**/*', async (route) => {
    try {
      await decide(running, route);
    } catch {
      await route.abort('failed').catch(() => undefined);
    }
  });
  // A window that the page opened is no window of the program; give its first request time to be seen.
  running.context.on('page', async (page) => {
    await new Promise((done) => setTimeout(done, 200));
    if (!ownerOf(running, page)) await page.close().catch(() => undefined);
  });
}

async function decide(running: Running, route: Route): Promise<void> {
  const request = route.request();
  const url = toProgramUrl(request.url(), running.schemes);
  const owner = ownerOf(running, pageOf(route));
  if (!owner) return refuseWindow(running, route, url);
  const [id, window] = owner;
  const whole = request.isNavigationRequest() && request.frame() === window.page.mainFrame();
  if (request.isNavigationRequest() && request.url() !== window.loading) {
    const may = await running.rpc.call('mayNavigate', id, whole ? 'whole' : 'frame', url);
    if (!may) {
      running.seen.denied.push(`navigate ${url}`);
      return route.abort('aborted');
    }
  }
  if (url === request.url()) {
    running.seen.blocked.push(url);
    return route.abort('blockedbyclient');
  }
  return serve(running, route, url);
}

async function serve(running: Running, route: Route, url: string): Promise<void> {
  const request = route.request();
  const headers = Object.entries(await request.allHeaders()).filter(([name]) => !name.startsWith(':'));
  const body = request.postDataBuffer();
  const served = await running.rpc.call('serve', url, request.method(), Object.fromEntries(headers), body);
  if (served === null) return route.abort('failed');
  return route.fulfill({
    status: served.status,
    headers: { ...served.headers },
    body: Buffer.from(served.body),
  });
}

/** A window the page wants to open: the main process is asked, and its answer stands in the list either way. */
async function refuseWindow(running: Running, route: Route, url: string): Promise<void> {
  const id = [...running.windows.keys()][0];
  const may = id !== undefined && (await running.rpc.call('mayOpen', id, url));
  running.seen.denied.push(`${may ? 'allowed window' : 'window'} ${url}`);
  return route.abort('aborted');
}

function pageOf(route: Route): Page | null {
  try {
    return route.request().frame().page();
  } catch {
    return null;
  }
}

function ownerOf(running: Running, page: Page | null): [number, WindowPage] | undefined {
  return [...running.windows].find(([, window]) => window.page === page);
}
