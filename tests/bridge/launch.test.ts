import { spawn, spawnSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ROOT } from './desktopApp.ts';

let folder: string;

beforeEach(() => {
  folder = path.join(ROOT, 'node_modules/.cache', `rakelight-launch-${process.pid}`);
  mkdirSync(folder, { recursive: true });
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

function run(file: string, args: readonly string[], env: Readonly<Record<string, string>> = {}) {
  const vitestFree = Object.entries(process.env).filter(([name]) => !/^(VITEST|TEST|VITE_)/.test(name));
  return spawnSync(process.execPath, [file, ...args], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...Object.fromEntries(vitestFree), ...env },
  });
}

function writeTests(name: string, body: string): void {
  writeFileSync(path.join(folder, name), `import { describe, expect, it } from 'vitest';\n${body}`);
}

/** Runs Vitest over the folder's own tests, counted as `npm test` counts. */
function countedRun(): { readonly status: number | null; readonly counts: unknown } {
  const file = path.join(folder, 'counts.json');
  writeFileSync(
    path.join(folder, 'vitest.config.mjs'),
    'export default { test: { include: ["*.test.js"] } };',
  );
  const { status } = run(
    path.join(ROOT, 'node_modules/vitest/vitest.mjs'),
    ['run', '--root', folder, `--reporter=${path.join(ROOT, 'electron/countReporter.mjs')}`],
    { RAKELIGHT_COUNTS: file },
  );
  return { status, counts: JSON.parse(readFileSync(file, 'utf8')) };
}

describe('the counts at the end of a test run', () => {
  it('count what passed, failed and was skipped', () => {
    writeTests(
      'some.test.js',
      `it('a', () => {}); it('b', () => { expect(1).toBe(2); }); it.skip('c', () => {});
       describe.skip('d', () => { it('e', () => {}); it('f', () => {}); }); it.todo('g');`,
    );
    expect(countedRun()).toEqual({ status: 1, counts: { passed: 1, failed: 1, skipped: 4 } });
  });

  it('count a file that cannot be loaded, and an error outside any test, as failures', () => {
    writeTests('good.test.js', `it('a', () => {});`);
    writeTests('broken.test.js', `throw new Error('cannot be loaded');`);
    writeTests(
      'late.test.js',
      `it('b', async () => { Promise.reject(new Error('late')); await new Promise((d) => setTimeout(d, 20)); });`,
    );
    expect(countedRun()).toEqual({ status: 1, counts: { passed: 2, failed: 2, skipped: 0 } });
  });

  it('are zero failed when all is well', () => {
    writeTests('good.test.js', `it('a', () => {}); it('b', () => {});`);
    expect(countedRun()).toEqual({ status: 0, counts: { passed: 2, failed: 0, skipped: 0 } });
  });
});

describe('the launcher', () => {
  const launcher = path.join(ROOT, 'electron/launch.mjs');

  it('installs nothing through a link to packages that lie elsewhere', () => {
    const theirs = path.join(folder, 'theirs');
    const mine = path.join(folder, 'mine');
    for (const at of [theirs, path.join(mine, 'electron')]) mkdirSync(at, { recursive: true });
    writeFileSync(path.join(theirs, 'kept.txt'), 'kept');
    writeFileSync(path.join(mine, 'package-lock.json'), '{"packages":{"":{},"a":{"version":"1.0.0"}}}');
    copyFileSync(launcher, path.join(mine, 'electron/launch.mjs'));
    symlinkSync(theirs, path.join(mine, 'node_modules'));
    const { status, stderr } = run(path.join(mine, 'electron/launch.mjs'), ['check'], { PATH: '' });
    expect(status).toBe(1);
    expect(stderr).toMatch(/^node_modules is a link/);
    expect(existsSync(path.join(theirs, 'kept.txt'))).toBe(true);
  });

  it('names its tasks when it is asked for another', () => {
    const { status, stderr } = run(launcher, ['fly']);
    expect(status).toBe(2);
    expect(stderr).toBe(
      'Tasks: start, test, build, check, bench, seed, shots, schema, doctor, door, faults\n',
    );
  });

  it('passes a stop on to what it runs, and that one’s exit code back', async () => {
    const dataDir = path.join(folder, 'shop');
    const child = spawn(process.execPath, [launcher, 'start', '--browser', '--data', dataDir], {
      env: { ...process.env, RAKELIGHT_NO_BROWSER: '1' },
    });
    const gone = new Promise((resolve) => child.once('close', resolve));
    await new Promise<void>((resolve) => {
      child.stdout.on('data', (chunk: Buffer) => {
        if (chunk.toString('utf8').includes('ready at')) resolve();
      });
    });
    expect(existsSync(path.join(dataDir, 'rakelight.lock'))).toBe(true);
    child.kill('SIGTERM');
    expect(await gone).toBe(0);
    expect(existsSync(path.join(dataDir, 'rakelight.lock'))).toBe(false);
    expect(run(launcher, ['start', '--bay']).status).toBe(2);
  });

  it('is written for Nodes from 18 on and needs no library', () => {
    const text = readFileSync(launcher, 'utf8');
    const imported = [...text.matchAll(/from '([^']+)'/g)].map((found) => found[1]);
    expect(imported.filter((name) => !name?.startsWith('node:'))).toEqual([]);
    expect(text).not.toMatch(/import\.meta\.(dirname|filename)|Object\.groupBy|\.toSorted\(|withResolvers/);
  });

  it('is what every script of package.json runs, and no script hides behind a hook', () => {
    const { scripts } = JSON.parse(readFileSync(path.join(ROOT, 'package.json'), 'utf8'));
    for (const [name, command] of Object.entries(scripts))
      expect(command).toBe(`node electron/launch.mjs ${name}`);
  });
});
