import { browserHost } from './browserHost.ts';
import { desktopHost } from './desktopHost.ts';
import type { Host } from './host.ts';

/** Picks the host once, at the start. Rejects with HostRefused when the browser host does not know this window. */
export async function findHost(): Promise<Host> {
  return window.rakelight ? desktopHost(window.rakelight) : browserHost();
}
