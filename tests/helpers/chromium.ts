/** Finds a Chromium for tests: the one RAKELIGHT_CHROMIUM names, the system's, or the npm package's (Linux x64). */
import { execFileSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { brotliDecompressSync } from 'node:zlib';
import { type Browser, chromium } from 'playwright-core';

export type ChromiumChoice = {
  readonly executablePath: string;
  readonly source: string;
  readonly env: Readonly<Record<string, string>>;
};

const SYSTEM = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/microsoft-edge',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];

/** Quiet offline. Nothing here loosens the web's own security rules: the tests assert them. */
const QUIET = [
  '--disable-gpu',
  '--disable-quic',
  '--disable-sync',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--font-render-hinting=none',
];

/**
 * A browser to test with, or null (then tests that need one are skipped, visibly).
 * @param only 'npm' takes the packaged one even where the system has its own: for pictures that are compared
 */
export function findChromium(only: 'npm' | 'any' = 'any'): ChromiumChoice | null {
  const asked = process.env['RAKELIGHT_CHROMIUM'];
  if (asked !== undefined) {
    if (!existsSync(asked)) throw new Error(`RAKELIGHT_CHROMIUM names ${asked}, which is not there`);
    return { executablePath: asked, source: 'RAKELIGHT_CHROMIUM', env: {} };
  }
  const system = only === 'any' ? SYSTEM.find((file) => existsSync(file)) : undefined;
  if (system !== undefined) return { executablePath: system, source: 'system', env: {} };
  return process.platform === 'linux' && process.arch === 'x64' ? packaged() : null;
}

/** Starts the browser; a test gets a page of its own by `browser.newContext()`. Default waits are 5 s. */
export async function launchChromium(choice: ChromiumChoice): Promise<Browser> {
  // Chromium refuses to run sandboxed as root.
  const root = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  return chromium.launch({
    executablePath: choice.executablePath,
    args: [...root, ...QUIET],
    env: { ...definedEnv(), ...choice.env },
  });
}

function definedEnv(): Record<string, string> {
  const entries = Object.entries(process.env).filter(
    (entry): entry is [string, string] => entry[1] !== undefined,
  );
  return Object.fromEntries(entries);
}

function packaged(): ChromiumChoice | null {
  const home = packageHome();
  if (home === null) return null;
  const { version } = JSON.parse(readFileSync(path.join(home, 'package.json'), 'utf8')) as {
    version: string;
  };
  const folder = path.resolve(import.meta.dirname, '../../node_modules/.cache/test-chromium', version);
  if (!existsSync(folder)) unpack(path.join(home, 'bin'), folder);
  const executablePath = path.join(folder, 'chromium');
  const incomplete = execFileSync('ldd', [executablePath], { encoding: 'utf8' }).includes('not found');
  return {
    executablePath,
    source: `@sparticuz/chromium ${version}`,
    env: {
      FONTCONFIG_FILE: path.join(folder, 'fonts.conf'),
      ...(incomplete ? { LD_LIBRARY_PATH: path.join(folder, 'lib') } : {}),
    },
  };
}

function packageHome(): string | null {
  try {
    const entry = createRequire(import.meta.url).resolve('@sparticuz/chromium');
    return path.join(entry.slice(0, entry.lastIndexOf('@sparticuz')), '@sparticuz/chromium');
  } catch {
    return null;
  }
}

/**
 * Unpacked here and moved into place whole: the package's own way uses one fixed folder in /tmp and takes up
 * whatever half-written file it finds there.
 */
function unpack(bin: string, folder: string): void {
  const part = `${folder}.${process.pid}`;
  mkdirSync(part, { recursive: true });
  const open = (name: string): Buffer => brotliDecompressSync(readFileSync(path.join(bin, name)));
  writeFileSync(path.join(part, 'chromium'), open('chromium.br'));
  chmodSync(path.join(part, 'chromium'), 0o755);
  for (const name of ['al2023', 'fonts', 'swiftshader'])
    execFileSync('tar', ['x', '-C', part], { input: open(`${name}.tar.br`) });
  writeFileSync(path.join(part, 'fonts.conf'), fontsConf(folder));
  try {
    renameSync(part, folder);
  } catch {
    // Another test process was faster; its copy is the same.
    rmSync(part, { recursive: true, force: true });
  }
}

function fontsConf(folder: string): string {
  return [
    '<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig>',
    '<include ignore_missing="yes">/etc/fonts/fonts.conf</include>',
    `<dir>${folder}/fonts</dir><cachedir>${folder}/fonts-cache</cachedir></fontconfig>`,
  ].join('');
}
