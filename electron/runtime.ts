import { spawn } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';

const DAY_MS = 24 * 3_600_000;

export type RuntimePlaces = {
  /** Electron's folder in node_modules. */
  readonly home: string;
  /** Where the last failed attempt is remembered. */
  readonly memory: string;
};

export type FetchLimits = { readonly silenceMs: number; readonly tickMs: number };

/** Where Electron's package lies; null when it is not installed at all. */
export function runtimePlaces(): RuntimePlaces | null {
  try {
    const home = path.dirname(createRequire(import.meta.url).resolve('electron/package.json'));
    return { home, memory: path.join(home, '..', '.cache', 'rakelight-runtime.json') };
  } catch {
    return null;
  }
}

/** The runtime's program, found by its files alone: asking the package for it would start a download. */
export function runtimeProgram(home: string): string | null {
  const named = path.join(home, 'path.txt');
  const program = existsSync(named) ? readFileSync(named, 'utf8') : 'electron';
  const file = path.join(process.env['ELECTRON_OVERRIDE_DIST_PATH'] ?? path.join(home, 'dist'), program);
  return existsSync(file) ? file : null;
}

/** True when an attempt of this runtime version failed less than a day ago. */
export function failedToday(places: RuntimePlaces, nowMs: number): boolean {
  try {
    const last = JSON.parse(readFileSync(places.memory, 'utf8')) as { version: string; atMs: number };
    return last.version === versionOf(places.home) && nowMs - last.atMs < DAY_MS && nowMs >= last.atMs;
  } catch {
    return false;
  }
}

/**
 * Runs the runtime's own installer and watches the bytes arrive. Given up when none came for `silenceMs`;
 * a failure is remembered for a day.
 * @param tell called with the bytes so far
 * @returns the program, or null
 */
export async function fetchRuntime(
  places: RuntimePlaces,
  tell: (bytes: number) => void,
  limits: FetchLimits = { silenceMs: 20_000, tickMs: 500 },
): Promise<string | null> {
  // The installer downloads into the system's temporary folder: give it one that can be watched.
  const temp = mkdtempSync(path.join(os.tmpdir(), 'rakelight-runtime-'));
  try {
    const ok = await watched(places.home, temp, tell, limits);
    const program = ok ? runtimeProgram(places.home) : null;
    if (program === null) remember(places);
    return program;
  } finally {
    rmSync(temp, { recursive: true, force: true });
  }
}

function watched(
  home: string,
  temp: string,
  tell: (bytes: number) => void,
  limits: FetchLimits,
): Promise<boolean> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [path.join(home, 'install.js')], {
      stdio: 'ignore',
      env: { ...process.env, TMPDIR: temp, TEMP: temp, TMP: temp, NODE_OPTIONS: '' },
    });
    let most = 0;
    let grewAt = Date.now();
    const timer = setInterval(() => {
      const bytes = sizeUnder(temp) + sizeUnder(path.join(home, 'dist'));
      if (bytes > most) {
        most = bytes;
        grewAt = Date.now();
        tell(bytes);
      } else if (Date.now() - grewAt > limits.silenceMs) child.kill('SIGKILL');
    }, limits.tickMs);
    const end = (ok: boolean): void => {
      clearInterval(timer);
      resolve(ok);
    };
    child.once('error', () => end(false));
    child.once('exit', (code) => end(code === 0));
  });
}

function sizeUnder(folder: string): number {
  if (!existsSync(folder)) return 0;
  return readdirSync(folder, { recursive: true, withFileTypes: true }).reduce((sum, entry) => {
    const size = statSync(path.join(entry.parentPath, entry.name), { throwIfNoEntry: false })?.size ?? 0;
    return entry.isFile() ? sum + size : sum;
  }, 0);
}

function remember(places: RuntimePlaces): void {
  try {
    mkdirSync(path.dirname(places.memory), { recursive: true });
    writeFileSync(places.memory, JSON.stringify({ version: versionOf(places.home), atMs: Date.now() }));
  } catch {
    // Not being able to remember only means asking again next time.
  }
}

function versionOf(home: string): string {
  return (JSON.parse(readFileSync(path.join(home, 'package.json'), 'utf8')) as { version: string }).version;
}
