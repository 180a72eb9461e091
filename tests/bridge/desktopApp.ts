import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';
import { _electron, type Browser, type Page } from 'playwright-core';
import { launchStandin, type Standin } from './standin/harness.ts';

export const ROOT = path.resolve(import.meta.dirname, '../..');
export const DIST = path.resolve(ROOT, process.env['RAKELIGHT_DIST'] || 'dist');

/** The program with its window, on the stand-in or on the real thing. */
export type DesktopApp = {
  readonly dataDir: string;
  /** Null on the real thing, which cannot be asked these things. */
  readonly standin: Standin | null;
  firstWindow(): Promise<Page>;
  /** Runs `act` in the main process. It is sent as text: it may name nothing from outside. */
  evaluate<R, A = null>(
    act: (electron: typeof import('electron'), argument: A) => R,
    argument?: A,
  ): Promise<Awaited<R>>;
  close(): Promise<void>;
};

/** The real runtime's program by its files, or null. Asking the package for it would start a download. */
export function electronProgram(): string | null {
  try {
    const home = path.dirname(createRequire(import.meta.url).resolve('electron/package.json'));
    const named = path.join(home, 'path.txt');
    const program = existsSync(named) ? readFileSync(named, 'utf8') : 'electron';
    const file = path.join(process.env['ELECTRON_OVERRIDE_DIST_PATH'] ?? path.join(home, 'dist'), program);
    return existsSync(file) ? file : null;
  } catch {
    return null;
  }
}

export function freshDataDir(): string {
  return mkdtempSync(path.join(os.tmpdir(), 'rakelight-test-'));
}

/** Starts the built program on the stand-in. `dist` may be a changed copy. */
export async function startOnStandin(
  browser: Browser,
  dataDir = freshDataDir(),
  dist = DIST,
): Promise<DesktopApp & { readonly standin: Standin }> {
  const main = path.join(dist, 'electron/main.js');
  const standin = await launchStandin(browser, { main, args: ['--data', dataDir], env: {} });
  return {
    dataDir,
    standin,
    firstWindow: standin.firstWindow,
    evaluate: (act, argument) => standin.evaluate(String(act), argument ?? null) as never,
    close: async () => {
      await standin.close();
      rmSync(dataDir, { recursive: true, force: true });
    },
  };
}

/** Starts the built program on the real runtime. */
export async function startOnElectron(program: string): Promise<DesktopApp> {
  const dataDir = freshDataDir();
  const root = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  const app = await _electron.launch({
    executablePath: program,
    args: [...root, path.join(DIST, 'electron/main.js'), '--data', dataDir],
    cwd: ROOT,
  });
  return {
    dataDir,
    standin: null,
    firstWindow: () => app.firstWindow(),
    evaluate: (act, argument) => app.evaluate(act as never, argument) as never,
    close: async () => {
      await app.close();
      rmSync(dataDir, { recursive: true, force: true });
    },
  };
}
