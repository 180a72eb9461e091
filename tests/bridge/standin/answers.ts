import { appModel } from './app.ts';
import type { Facts, Frame, NavigationKind, Served, ToMain } from './contract.ts';
import type { Methods } from './rpc.ts';
import { state } from './state.ts';
import { preventable } from './strict.ts';

/** What the test process may ask of the main process. */
export const answers = {
  start: () => appModel.begin(),
  // Later, so that the answer goes out before the process ends.
  quit: () => void setImmediate(() => appModel.quit()),
  evaluate: async (source: string, argument: unknown) => {
    const electron = await import('./module.ts');
    // biome-ignore lint/security/noGlobalEval: the test's own function, sent as text as the real driver does
    const act = globalThis.eval(`(${source})`) as (electron: unknown, argument: unknown) => unknown;
    return act(electron, argument);
  },
  facts: (): Facts => ({
    sandboxedAll: state.sandboxedAll,
    privileges: Object.fromEntries(state.privileges),
    preferences: state.preferences,
    channels: [...state.channels.keys()],
    deviceGranted: state.devicePermission?.({ deviceType: 'usb' }) ?? true,
  }),
  serve,
  invoke,
  mayNavigate,
  mayOpen: (windowId: number, url: string) =>
    state.windows.get(windowId)?.webContents.openHandler({ url }).action === 'allow',
  loaded: (windowId: number, url: string, title: string) => {
    const window = state.windows.get(windowId);
    if (!window) return;
    window.webContents.url = url;
    window.setTitle(title);
    window.webContents.emit('did-finish-load', {});
    window.emit('ready-to-show');
  },
  closed: (windowId: number) => state.windows.get(windowId)?.gone(),
} satisfies ToMain & Methods;

async function serve(
  url: string,
  method: string,
  headers: Readonly<Record<string, string>>,
  body: Uint8Array | null,
): Promise<Served | null> {
  const handler = state.served.get(new URL(url).protocol.slice(0, -1));
  if (!handler) return null;
  const content = body === null ? {} : { body: new Uint8Array(body) };
  const answer = await handler(new Request(url, { method, headers, ...content }));
  return {
    status: answer.status,
    headers: Object.fromEntries(answer.headers),
    body: new Uint8Array(await answer.arrayBuffer()),
  };
}

function invoke(windowId: number, frame: Frame, channel: string, args: readonly unknown[]): unknown {
  const handler = state.channels.get(channel);
  if (!handler) throw new Error(`No handler registered for '${channel}'`);
  return handler({ sender: state.windows.get(windowId)?.webContents, senderFrame: frame }, ...args);
}

function mayNavigate(windowId: number, kind: NavigationKind, url: string): boolean {
  const contents = state.windows.get(windowId)?.webContents;
  if (!contents) return false;
  const event = preventable({ url, isMainFrame: kind === 'whole' });
  if (kind === 'whole') contents.emit('will-navigate', event, url);
  if (!event.defaultPrevented) contents.emit('will-frame-navigate', event, url);
  return !event.defaultPrevented;
}
