import type { App, Session, WebContents, WebFrameMain } from 'electron';

export const PAGE_SCHEME = 'app';
export const PAGE_HOST = 'rakelight';
export const PAGE_URL = `${PAGE_SCHEME}://${PAGE_HOST}/`;

/** Address kinds that a person may be sent to outside the window. */
const OUTSIDE: readonly string[] = ['https:', 'mailto:', 'tel:'];

/** True for addresses of our own page. */
export function isOwnUrl(raw: string): boolean {
  const url = URL.parse(raw);
  return url !== null && url.protocol === `${PAGE_SCHEME}:` && url.host === PAGE_HOST;
}

/** True for the whole window showing our page; a frame inside it has no say. */
export function isTrustedFrame(frame: WebFrameMain | null): boolean {
  return frame !== null && frame.parent === null && isOwnUrl(frame.url);
}

/** The address to hand to the system, or null when it is not one that may leave the window. */
export function outsideUrl(raw: string): string | null {
  const url = URL.parse(raw);
  return url !== null && OUTSIDE.includes(url.protocol) && url.username === '' ? url.href : null;
}

/** Denies every permission and keeps every window on our own page. `open` hands an address to the system. */
export function harden(app: App, session: Session, open: (url: string) => void): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
  app.on('web-contents-created', (_event, contents) => guard(contents, open));
}

function guard(contents: WebContents, open: (url: string) => void): void {
  contents.on('will-navigate', (event) => {
    if (isOwnUrl(event.url)) return;
    event.preventDefault();
    const outside = outsideUrl(event.url);
    if (outside !== null) open(outside);
  });
  contents.on('will-frame-navigate', (event) => {
    if (!isOwnUrl(event.url)) event.preventDefault();
  });
  contents.on('will-redirect', (event) => {
    if (!isOwnUrl(event.url)) event.preventDefault();
  });
  contents.on('will-attach-webview', (event) => event.preventDefault());
  contents.setWindowOpenHandler(({ url }) => {
    const outside = outsideUrl(url);
    if (outside !== null) open(outside);
    return { action: 'deny' };
  });
}
