/**
 * Runs in the page's own world before anything of the page: builds what the preload exposes. The two worlds
 * share only the document, so they speak by events whose names hold a key the page never sees; what goes over
 * is copied, as Electron's bridge copies it. Sent to the browser as text: nothing from outside may be named in it.
 */
export function pageWorld(key: string): void {
  type Shape =
    | { kind: 'value'; value: unknown }
    | { kind: 'function'; id: number }
    | { kind: 'object'; fields: [string, Shape][] };
  type Answer = { call: number } & (
    | { kind: 'value'; shape: Shape }
    | { kind: 'promise' }
    | { kind: 'throw'; message: string }
  );
  type Settled = { call: number; ok: true; shape: Shape } | { call: number; ok: false; message: string };
  if (window !== window.top) return;

  const open = new Map<number, { done: (value: unknown) => void; fail: (error: Error) => void }>();
  const given = new Map<number, (...args: unknown[]) => unknown>();
  let last = 0;
  let answer: Answer | null = null;
  const on = <T>(name: string, heard: (detail: T) => void): void =>
    window.addEventListener(key + name, (event) => heard((event as CustomEvent<T>).detail));
  const argument = (value: unknown): unknown => {
    if (typeof value !== 'function') return value;
    last += 1;
    given.set(last, value as (...args: unknown[]) => unknown);
    return { [key]: last };
  };
  const invoke = (id: number, args: unknown[]): unknown => {
    last += 1;
    const call = last;
    answer = null;
    const detail = { call, id, args: args.map(argument) };
    window.dispatchEvent(new CustomEvent(`${key}call`, { detail }));
    const now = answer as Answer | null;
    if (now === null || now.call !== call) throw new Error('An object could not be cloned.');
    if (now.kind === 'throw') throw new Error(now.message);
    if (now.kind === 'value') return build(now.shape);
    return new Promise((done, fail) => open.set(call, { done, fail }));
  };
  const build = (shape: Shape): unknown => {
    if (shape.kind === 'value') return shape.value;
    if (shape.kind === 'function') return Object.freeze((...args: unknown[]) => invoke(shape.id, args));
    return Object.freeze(Object.fromEntries(shape.fields.map(([name, part]) => [name, build(part)])));
  };
  on<Answer>('answer', (detail) => {
    answer = detail;
  });
  on<Settled>('settled', (detail) => {
    const one = open.get(detail.call);
    open.delete(detail.call);
    if (detail.ok) one?.done(build(detail.shape));
    else one?.fail(new Error(detail.message));
  });
  on<{ id: number; args: unknown[] }>('given', ({ id, args }) => given.get(id)?.(...args));
  on<{ name: string; shape: Shape }>('expose', ({ name, shape }) => {
    Object.defineProperty(window, name, { value: build(shape), enumerable: true });
  });
}
