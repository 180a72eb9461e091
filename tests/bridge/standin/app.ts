import { EventEmitter } from 'node:events';
import os from 'node:os';
import path from 'node:path';
import { link } from './link.ts';
import { state } from './state.ts';
import { preventable, strict } from './strict.ts';

/** Electron's `app`, as far as Rakelight uses it. */
class AppModel extends EventEmitter {
  readonly isPackaged = false;
  readonly #paths = new Map<string, string>();
  readonly #ready = Promise.withResolvers<void>();

  begin(): void {
    state.ready = true;
    this.emit('ready', {}, {});
    this.#ready.resolve();
  }

  whenReady(): Promise<void> {
    return this.#ready.promise;
  }

  enableSandbox(): void {
    if (state.ready) throw new Error('app.enableSandbox() can only be called before app is ready');
    state.sandboxedAll = true;
  }

  getPath(name: string): string {
    const known = this.#paths.get(name);
    if (known !== undefined) return known;
    return name === 'temp' ? os.tmpdir() : path.join(this.getPath('userData'), name);
  }

  setPath(name: string, to: string): void {
    if (!path.isAbsolute(to)) throw new Error('Path must be absolute');
    this.#paths.set(name, to);
  }

  /** One process is all there is: the real lock needs the real thing. */
  requestSingleInstanceLock(): boolean {
    return process.env['STANDIN_SECOND'] !== '1';
  }

  quit(): void {
    if (state.quitting) return;
    const before = preventable({});
    this.emit('before-quit', before);
    if (before.defaultPrevented) return;
    state.quitting = true;
    for (const window of [...state.windows.values()]) window.destroy();
    const will = preventable({});
    this.emit('will-quit', will);
    state.quitting = !will.defaultPrevented;
    if (state.quitting) this.exit(0);
  }

  exit(code = 0): void {
    void link.call('exited', code).finally(() => process.exit(code));
  }
}

export const appModel = new AppModel();
export const app = strict(appModel, 'app');
