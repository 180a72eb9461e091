/** What the built preload is called with: the little that a sandboxed preload has. */
type Preload = (require: (name: string) => unknown, module: object, exports: object, process: object) => void;

/**
 * Runs the built preload in a world of its own, with `contextBridge` and `ipcRenderer`. Sent to the browser as
 * text: nothing from outside may be named in it. Messages to the main process go through the function
 * `standinSend`, which only this world has.
 */
export function preloadWorld(key: string, preload: Preload): void {
  type Listener = (event: unknown, ...args: unknown[]) => void;
  type Received =
    | { kind: 'reply'; id: number; ok: true; value: unknown }
    | { kind: 'reply'; id: number; ok: false; message: string }
    | { kind: 'event'; channel: string; args: unknown[] };
  if (window !== window.top) return;
  const world = globalThis as unknown as {
    standinSend: (text: string) => void;
    standinReceive: (message: Received) => void;
  };
  const toMain = world.standinSend;
  const pending = new Map<
    number,
    { done: (v: unknown) => void; fail: (e: Error) => void; channel: string }
  >();
  const listeners = new Map<string, Set<Listener>>();
  let last = 0;

  const pack = (value: unknown): unknown => {
    if (typeof value === 'function' || typeof value === 'symbol')
      throw new Error('An object could not be cloned.');
    if (value === undefined) return { $kind: 'undefined' };
    if (typeof value === 'bigint') return { $kind: 'bigint', of: String(value) };
    if (value === null || typeof value !== 'object') return value;
    if (value instanceof Date) return { $kind: 'date', of: value.getTime() };
    if (value instanceof Uint8Array) return { $kind: 'bytes', of: base64(value) };
    if (Array.isArray(value)) return value.map(pack);
    return Object.fromEntries(Object.entries(value).map(([name, part]) => [name, pack(part)]));
  };
  const base64 = (bytes: Uint8Array): string => {
    let text = '';
    for (const byte of bytes) text += String.fromCharCode(byte);
    return btoa(text);
  };
  const unpack = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(unpack);
    if (value === null || typeof value !== 'object') return value;
    if (!('$kind' in value)) {
      return Object.fromEntries(Object.entries(value).map(([name, part]) => [name, unpack(part)]));
    }
    const of = String('of' in value ? value.of : '');
    if (value.$kind === 'date') return new Date(Number(of));
    if (value.$kind === 'bigint') return BigInt(of);
    if (value.$kind === 'bytes') return Uint8Array.from(atob(of), (c) => c.charCodeAt(0));
    return undefined;
  };
  world.standinReceive = (message) => {
    if (message.kind === 'event') {
      for (const listener of [...(listeners.get(message.channel) ?? [])])
        listener({ sender: ipcRenderer }, ...(unpack(message.args) as unknown[]));
      return;
    }
    const one = pending.get(message.id);
    pending.delete(message.id);
    if (message.ok) one?.done(unpack(message.value));
    else one?.fail(new Error(`Error invoking remote method '${one.channel}': Error: ${message.message}`));
  };
  const ipcRenderer = {
    invoke: (channel: string, ...args: unknown[]) =>
      new Promise((done, fail) => {
        last += 1;
        const text = JSON.stringify({ id: last, channel, args: pack(args) });
        pending.set(last, { done, fail, channel });
        toMain(text);
      }),
    on(channel: string, listener: Listener) {
      listeners.set(channel, (listeners.get(channel) ?? new Set()).add(listener));
      return ipcRenderer;
    },
    off(channel: string, listener: Listener) {
      listeners.get(channel)?.delete(listener);
      return ipcRenderer;
    },
  };

  // The page's side of these events is in pageWorld.ts.
  type Shape =
    | { kind: 'value'; value: unknown }
    | { kind: 'function'; id: number }
    | { kind: 'object'; fields: [string, Shape][] };
  const functions = new Map<number, (...args: unknown[]) => unknown>();
  const out = (name: string, detail: unknown): boolean =>
    window.dispatchEvent(new CustomEvent(key + name, { detail }));
  const shapeOf = (value: unknown): Shape => {
    if (typeof value === 'function') {
      last += 1;
      functions.set(last, value as (...args: unknown[]) => unknown);
      return { kind: 'function', id: last };
    }
    const plain =
      typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype;
    if (!plain) return { kind: 'value', value };
    return { kind: 'object', fields: Object.entries(value).map(([name, part]) => [name, shapeOf(part)]) };
  };
  const argument = (value: unknown): unknown => {
    const id = typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[key] : null;
    return typeof id === 'number' ? (...args: unknown[]) => void out('given', { id, args }) : value;
  };
  const why = (error: unknown): string => (error instanceof Error ? error.message : String(error));
  window.addEventListener(`${key}call`, (event) => {
    const { call, id, args } = (event as CustomEvent<{ call: number; id: number; args: unknown[] }>).detail;
    try {
      const result = functions.get(id)?.(...args.map(argument));
      if (!(result instanceof Promise))
        return void out('answer', { call, kind: 'value', shape: shapeOf(result) });
      out('answer', { call, kind: 'promise' });
      result.then(
        (value) => out('settled', { call, ok: true, shape: shapeOf(value) }),
        (error: unknown) => out('settled', { call, ok: false, message: why(error) }),
      );
    } catch (error) {
      out('answer', { call, kind: 'throw', message: why(error) });
    }
  });
  const contextBridge = {
    exposeInMainWorld: (name: string, api: unknown) => void out('expose', { name, shape: shapeOf(api) }),
  };
  const electron = Object.freeze({ contextBridge, ipcRenderer });
  const require = (name: string): unknown => {
    if (name === 'electron' || name === 'electron/renderer') return electron;
    throw new Error(`module not found: ${name} (a sandboxed preload has only electron)`);
  };
  preload(require, { exports: {} }, {}, Object.freeze({ platform: 'linux', sandboxed: true }));
}
