import { randomUUID } from 'node:crypto';
import type { CDPSession, Page } from 'playwright-core';
import { pack, unpack } from './codec.ts';
import type { WindowRequest } from './contract.ts';
import type { Running } from './harness.ts';
import { toProgramUrl, toRealUrl } from './network.ts';
import { pageWorld } from './pageWorld.ts';
import { preloadWorld } from './preloadWorld.ts';

const WORLD = 'standin-preload';

/** One window of the program: a page of the browser with the preload in a world of its own. */
export type WindowPage = {
  readonly page: Page;
  /** The real address that is being loaded by the program itself, which needs no leave. */
  loading: string | null;
  load(url: string): Promise<void>;
  toPreload(message: Readonly<Record<string, unknown>>): Promise<void>;
  pdf(options: Readonly<Record<string, unknown>>): Promise<Uint8Array>;
};

type Contexts = Map<number, { readonly world: string }>;

export async function openPage(running: Running, id: number, request: WindowRequest): Promise<void> {
  await running.context.grantPermissions([...request.granted]);
  const page = await running.context.newPage();
  await page.setViewportSize({ width: request.width, height: request.height });
  const cdp = await running.context.newCDPSession(page);
  const contexts: Contexts = new Map();
  const toPreload = (message: Readonly<Record<string, unknown>>): Promise<void> =>
    deliver(cdp, contexts, message);
  const window: WindowPage = {
    page,
    loading: null,
    toPreload,
    load: async (url) => {
      window.loading = toRealUrl(url, running.schemes);
      await page.goto(window.loading, { waitUntil: 'load' });
      window.loading = null;
    },
    pdf: async (options) => page.pdf(pdfOptions(options)),
  };
  running.windows.set(id, window);
  follow(cdp, contexts, (payload) => void fromPreload(running, id, window, payload));
  await installWorlds(cdp, request.preload);
  watch(running, id, page);
}

async function installWorlds(cdp: CDPSession, preload: string): Promise<void> {
  const key = `standin-${randomUUID()}-`;
  const name = JSON.stringify(key);
  const body = `function (require, module, exports, process) {\n${preload}\n}`;
  await cdp.send('Page.enable');
  await cdp.send('Runtime.enable');
  await cdp.send('Runtime.addBinding', { name: 'standinSend', executionContextName: WORLD });
  await cdp.send('Page.addScriptToEvaluateOnNewDocument', { source: `(${pageWorld})(${name});` });
  await cdp.send('Page.addScriptToEvaluateOnNewDocument', {
    source: `(${preloadWorld})(${name}, ${body});`,
    worldName: WORLD,
  });
}

function follow(cdp: CDPSession, contexts: Contexts, heard: (payload: string) => void): void {
  cdp.on('Runtime.executionContextCreated', ({ context }) =>
    contexts.set(context.id, { world: context.name }),
  );
  cdp.on('Runtime.executionContextDestroyed', ({ executionContextId }) =>
    contexts.delete(executionContextId),
  );
  cdp.on('Runtime.executionContextsCleared', () => contexts.clear());
  cdp.on('Runtime.bindingCalled', ({ name, payload }) => {
    if (name === 'standinSend') heard(payload);
  });
}

function watch(running: Running, id: number, page: Page): void {
  const { seen, rpc, schemes } = running;
  page.on('close', () => {
    running.windows.delete(id);
    rpc.call('closed', id).catch(() => undefined);
  });
  page.on('load', async () => {
    const title = await page.title().catch(() => '');
    await rpc.call('loaded', id, toProgramUrl(page.url(), schemes), title).catch(() => undefined);
  });
  page.on('console', (message) => {
    if (message.type() === 'error') seen.log += `[page] ${message.text()}\n`;
  });
  page.on('pageerror', (error) => {
    seen.log += `[page] ${error.message}\n`;
  });
}

async function fromPreload(running: Running, id: number, window: WindowPage, payload: string): Promise<void> {
  const message = JSON.parse(payload) as { id: number; channel: string; args: unknown };
  const args = unpack(message.args) as unknown[];
  const frame = { url: toProgramUrl(window.page.mainFrame().url(), running.schemes), parent: null };
  try {
    const value = await running.rpc.call('invoke', id, frame, message.channel, args);
    await window.toPreload({ kind: 'reply', id: message.id, ok: true, value: pack(value) });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    await window.toPreload({ kind: 'reply', id: message.id, ok: false, message: why });
  }
}

async function deliver(
  cdp: CDPSession,
  contexts: Contexts,
  message: Readonly<Record<string, unknown>>,
): Promise<void> {
  const contextId = [...contexts].find(([, context]) => context.world === WORLD)?.[0];
  if (contextId === undefined) return;
  const packed = message['kind'] === 'event' ? { ...message, args: pack(message['args']) } : message;
  const expression = `standinReceive(${JSON.stringify(packed)})`;
  await cdp.send('Runtime.evaluate', { contextId, expression }).catch(() => undefined);
}

/** Electron's print options in the browser's words; what Rakelight does not use is refused by name. */
function pdfOptions(options: Readonly<Record<string, unknown>>): Parameters<Page['pdf']>[0] {
  const { pageSize, printBackground, ...rest } = options;
  const other = Object.keys(rest);
  if (other.length > 0) throw new Error(`electron stand-in: printToPDF ${other.join(', ')} is not modelled`);
  return { format: String(pageSize ?? 'Letter'), printBackground: printBackground === true };
}
