import { type ChildProcess, spawn } from 'node:child_process';
import path from 'node:path';
import { DIST, ROOT } from './desktopApp.ts';

/** A program of the built folder, running for a test. */
export type HostProcess = {
  readonly child: ChildProcess;
  output(): string;
  errors(): string;
  /** Waits until the output matches; fails with everything it said when it ends before. */
  said(pattern: RegExp): Promise<RegExpExecArray>;
  exited(): Promise<number | null>;
  /** Asks it to stop, as Ctrl+C or the system does, and waits. */
  stop(): Promise<number | null>;
};

/** Starts `dist/electron/<program>.js` without a display and without opening a browser. */
export function startProgram(
  program: string,
  args: readonly string[],
  env: Readonly<Record<string, string>> = {},
): HostProcess {
  const child = spawn(process.execPath, [path.join(DIST, `electron/${program}.js`), ...args], {
    cwd: ROOT,
    env: { ...process.env, DISPLAY: '', WAYLAND_DISPLAY: '', RAKELIGHT_NO_BROWSER: '1', ...env },
  });
  let output = '';
  let errors = '';
  child.stdout.on('data', (chunk: Buffer) => {
    output += chunk.toString('utf8');
  });
  child.stderr.on('data', (chunk: Buffer) => {
    errors += chunk.toString('utf8');
  });
  const gone = new Promise<number | null>((resolve) => child.once('close', resolve));
  return {
    child,
    output: () => output,
    errors: () => errors,
    said: (pattern) =>
      waitFor(
        child,
        gone,
        pattern,
        () => output,
        () => errors,
      ),
    exited: () => gone,
    stop: () => {
      child.kill('SIGTERM');
      return gone;
    },
  };
}

function waitFor(
  child: ChildProcess,
  gone: Promise<number | null>,
  pattern: RegExp,
  output: () => string,
  errors: () => string,
): Promise<RegExpExecArray> {
  return new Promise((resolve, reject) => {
    const look = (): void => {
      const found = pattern.exec(output());
      if (found) resolve(found);
    };
    child.stdout?.on('data', look);
    look();
    void gone.then((code) =>
      reject(new Error(`ended (${code}) without ${pattern}\n${output()}\n${errors()}`)),
    );
  });
}

export type RunningHost = HostProcess & {
  readonly origin: string;
  readonly link: string;
  readonly code: string;
};

/** Starts the browser host on a folder and waits for its link. */
export async function startBrowserHost(dataDir: string, ...args: readonly string[]): Promise<RunningHost> {
  const host = startProgram('start', ['--browser', '--data', dataDir, ...args]);
  const found = await host.said(/^Rakelight is ready at ((http:\/\/[^/]+)\/#c=(\S+))$/m);
  return { ...host, link: found[1] ?? '', origin: found[2] ?? '', code: found[3] ?? '' };
}
