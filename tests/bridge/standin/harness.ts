/** The test's side: owns the browser, starts the built main file with the stand-in, serves its windows. */
import { type ChildProcess, fork } from 'node:child_process';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import type { Facts, Frame, ToMain, ToTest } from './contract.ts';
import { intercept, type Seen } from './network.ts';
import { createRpc, type Methods, type Rpc } from './rpc.ts';
import { openPage, type WindowPage } from './windowPage.ts';

export type StandinOptions = {
  readonly main: string;
  readonly args: readonly string[];
  readonly env: Readonly<Record<string, string>>;
};

export type Standin = {
  firstWindow(): Promise<Page>;
  evaluate(source: string, argument: unknown): Promise<unknown>;
  facts(): Promise<Facts>;
  /** A call on a channel as if it came from this frame. */
  invokeAs(frame: Frame, channel: string, ...args: readonly unknown[]): Promise<unknown>;
  /** Addresses outside the program that a page asked for; none may ever get through. */
  blocked(): readonly string[];
  /** Navigations and windows that the main process refused. */
  denied(): readonly string[];
  log(): string;
  exited(): Promise<number | null>;
  close(): Promise<number | null>;
};

/** Everything one running program is made of. */
export type Running = {
  readonly context: BrowserContext;
  readonly windows: Map<number, WindowPage>;
  readonly seen: Seen;
  readonly first: PromiseWithResolvers<Page>;
  rpc: Rpc<ToMain>;
  schemes: readonly string[];
};

export async function launchStandin(browser: Browser, options: StandinOptions): Promise<Standin> {
  const context = await browser.newContext({ serviceWorkers: 'block' });
  const child = fork(options.main, [...options.args], {
    env: { ...process.env, ...options.env, NODE_OPTIONS: '' },
    serialization: 'advanced',
    stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
    execArgv: ['--import', new URL('./register.ts', import.meta.url).href],
  });
  const seen: Seen = { blocked: [], denied: [], log: '' };
  for (const stream of [child.stdout, child.stderr])
    stream?.on('data', (chunk: Buffer) => {
      seen.log += chunk.toString('utf8');
    });
  const running = {
    context,
    windows: new Map(),
    seen,
    first: Promise.withResolvers(),
    schemes: [],
  } as unknown as Running;
  running.first.promise.catch(() => undefined);
  running.rpc = createRpc<ToMain>(portOf(child), answersOf(running));
  const gone = goneOf(child, running);
  await intercept(running);
  await running.rpc.call('start').catch(() => undefined);
  return handles(running, child, gone);
}

function portOf(child: ChildProcess): Parameters<typeof createRpc>[0] {
  return {
    send: (message) => {
      if (child.connected) child.send(message as object);
    },
    listen: (heard) => {
      child.on('message', heard);
    },
  };
}

function goneOf(child: ChildProcess, running: Running): Promise<number | null> {
  return new Promise((resolve) => {
    child.once('close', (code) => {
      const why = `the main process ended (${code})\n${running.seen.log}`;
      running.rpc.giveUp(why);
      running.first.reject(new Error(why));
      resolve(code);
    });
  });
}

function answersOf(running: Running): ToTest & Methods {
  const page = (id: number): WindowPage => {
    const found = running.windows.get(id);
    if (!found) throw new Error('the window is gone');
    return found;
  };
  return {
    schemes: (names) => {
      running.schemes = names;
    },
    exited: () => undefined,
    createWindow: (id, request) => openPage(running, id, request),
    destroyWindow: async (id) => {
      await running.windows.get(id)?.page.close();
    },
    load: async (id, url) => {
      await page(id).load(url);
      running.first.resolve(page(id).page);
    },
    send: (id, channel, args) => page(id).toPreload({ kind: 'event', channel, args }),
    pdf: async (id, options) => page(id).pdf(options),
  };
}

function handles(running: Running, child: ChildProcess, gone: Promise<number | null>): Standin {
  return {
    firstWindow: () => running.first.promise,
    evaluate: (source, argument) => running.rpc.call('evaluate', source, argument),
    facts: () => running.rpc.call('facts'),
    invokeAs: async (frame, channel, ...args) => running.rpc.call('invoke', 1, frame, channel, args),
    blocked: () => running.seen.blocked,
    denied: () => running.seen.denied,
    log: () => running.seen.log,
    exited: () => gone,
    close: async () => {
      if (child.exitCode === null) await running.rpc.call('quit').catch(() => undefined);
      const late = setTimeout(() => child.kill('SIGKILL'), 10_000);
      const code = await gone;
      clearTimeout(late);
      await running.context.close();
      return code;
    },
  };
}
