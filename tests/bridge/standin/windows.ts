import { EventEmitter } from 'node:events';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { BrowserWindowConstructorOptions, WindowOpenHandlerResponse } from 'electron';
import { appModel } from './app.ts';
import { link } from './link.ts';
import { grantedPermissions } from './session.ts';
import { state } from './state.ts';
import { preventable, strict } from './strict.ts';

/** Settings that would open the page's sandbox: refused at once instead of imitated. */
const UNSAFE = {
  contextIsolation: false,
  sandbox: false,
  webSecurity: false,
  nodeIntegration: true,
  nodeIntegrationInSubFrames: true,
  nodeIntegrationInWorker: true,
  webviewTag: true,
  experimentalFeatures: true,
  allowRunningInsecureContent: true,
} as const;

type OpenHandler = (details: { readonly url: string }) => WindowOpenHandlerResponse;

export class ContentsModel extends EventEmitter {
  readonly id: number;
  readonly #created: Promise<void>;
  url = '';
  dead = false;
  openHandler: OpenHandler = () => ({ action: 'allow' });

  constructor(id: number, created: Promise<void>) {
    super();
    this.id = id;
    this.#created = created;
  }

  get mainFrame(): { readonly url: string; readonly parent: null } {
    return { url: this.url, parent: null };
  }

  getURL(): string {
    return this.url;
  }

  isDestroyed(): boolean {
    return this.dead;
  }

  setWindowOpenHandler(handler: OpenHandler): void {
    this.openHandler = handler;
  }

  async loadURL(url: string): Promise<void> {
    await this.#created;
    await link.call('load', this.id, url);
  }

  send(channel: string, ...args: unknown[]): void {
    link.call('send', this.id, channel, args).catch(() => undefined);
  }

  async printToPDF(options: Readonly<Record<string, unknown>>): Promise<Buffer> {
    return Buffer.from(await link.call('pdf', this.id, options));
  }
}

let last = 0;

export class WindowModel extends EventEmitter {
  readonly id: number;
  readonly webContents: ContentsModel;
  #title: string;
  #visible: boolean;

  constructor(options: BrowserWindowConstructorOptions = {}) {
    super();
    if (!state.ready) throw new Error('Cannot create BrowserWindow before app is ready');
    const preload = checkedPreload(options);
    last += 1;
    this.id = last;
    this.#title = options.title ?? '';
    this.#visible = options.show !== false;
    const { width = 800, height = 600 } = options;
    // After the listeners for new contents ran: they set the handlers that are asked here.
    const created = Promise.resolve().then(() =>
      link.call('createWindow', this.id, { width, height, preload, granted: grantedPermissions() }),
    );
    this.webContents = strict(new ContentsModel(this.id, created), 'webContents');
    state.preferences.push({ ...options.webPreferences });
    state.windows.set(this.id, this);
    appModel.emit('browser-window-created', {}, this);
    appModel.emit('web-contents-created', {}, this.webContents);
  }

  loadURL(url: string): Promise<void> {
    return this.webContents.loadURL(url);
  }

  show(): void {
    this.#visible = true;
  }

  isVisible(): boolean {
    return this.#visible;
  }

  focus(): void {
    this.emit('focus');
  }

  isMinimized(): boolean {
    return false;
  }

  getTitle(): string {
    return this.#title;
  }

  setTitle(title: string): void {
    this.#title = title;
  }

  isDestroyed(): boolean {
    return !state.windows.has(this.id);
  }

  close(): void {
    const event = preventable({});
    this.emit('close', event);
    if (!event.defaultPrevented) this.destroy();
  }

  destroy(): void {
    if (!this.isDestroyed()) link.call('destroyWindow', this.id).catch(() => undefined);
    this.gone();
  }

  gone(): void {
    if (!state.windows.delete(this.id)) return;
    this.webContents.dead = true;
    this.emit('closed');
    if (state.windows.size > 0 || state.quitting) return;
    if (!appModel.emit('window-all-closed')) appModel.quit();
  }
}

function checkedPreload(options: BrowserWindowConstructorOptions): string {
  const preferences: Readonly<Record<string, unknown>> = { ...options.webPreferences };
  for (const [name, bad] of Object.entries(UNSAFE))
    if (preferences[name] === bad)
      throw new Error(`electron stand-in: webPreferences.${name}=${bad} is not wanted`);
  const file = options.webPreferences?.preload;
  if (file === undefined) return '';
  if (!path.isAbsolute(file)) throw new Error('preload must be an absolute path');
  return readFileSync(file, 'utf8');
}

/** Windows and the three ways to find one. */
export const BrowserWindow = new Proxy(WindowModel, {
  construct: (Model, args: [BrowserWindowConstructorOptions]) => {
    const window = strict(new Model(...args), 'BrowserWindow');
    state.windows.set(window.id, window);
    return window;
  },
  get: (Model, key, receiver) => {
    if (key === 'getAllWindows') return () => [...state.windows.values()];
    if (key === 'getFocusedWindow') return () => [...state.windows.values()][0] ?? null;
    if (key === 'fromWebContents') return (of: ContentsModel) => state.windows.get(of.id) ?? null;
    return Reflect.get(Model, key, receiver);
  },
});
