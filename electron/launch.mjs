// `npm start`, `npm test` and the rest, on any Node from 18 and any npm: installs if needed, then runs the task
// under Node 24. Plain JavaScript without dependencies, because it runs before anything is installed.
// Not a prestart hook: npm's `ignore-scripts` silently switches hooks off.
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const NODE_NEEDED = 24;
const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
const [task, ...rest] = process.argv.slice(2);
const dist = process.env.RAKELIGHT_DIST || 'dist';

let running = null;
// Whoever stops this process means the step that runs; it closes by itself and its exit code is passed on.
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => running?.kill(signal));

// A stop sent to npm alone ends npm's shell, which does not pass it on: then nobody is left who could stop us.
const parent = process.ppid;
if (process.env.npm_lifecycle_event && process.platform !== 'win32')
  setInterval(() => process.ppid !== parent && running?.kill('SIGTERM'), 500).unref();

function run(command, args, options = {}) {
  return new Promise((resolve, reject) => {
    running = spawn(command, args, {
      cwd: root,
      stdio: 'inherit',
      shell: command.endsWith('.cmd'),
      ...options,
    });
    running.once('error', reject);
    running.once('close', (code, signal) => {
      running = null;
      resolve(code ?? (signal ? 1 : 0));
    });
  });
}

/** Installs exactly what the lock file says, unless that was done already for this lock and machine kind. */
async function install() {
  const stamp = path.join(root, 'node_modules/.rakelight-installed');
  const lock = readFileSync(path.join(root, 'package-lock.json'));
  const want = `${createHash('sha256').update(lock).digest('hex')} ${process.platform} ${process.arch}`;
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === want) return;
  if (isInstalled(JSON.parse(lock.toString('utf8')))) return writeFileSync(stamp, want);
  console.error('Installing what Rakelight is built from (once, about half a minute)…');
  const args = ['ci', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'];
  const npm = process.env.npm_execpath;
  const status = npm
    ? await run(process.execPath, [npm, ...args])
    : await run(process.platform === 'win32' ? 'npm.cmd' : 'npm', args);
  if (status !== 0) {
    console.error('The installation failed; its messages are above. Nothing else was done.');
    process.exit(status);
  }
  writeFileSync(stamp, want);
}

/** What npm says it has installed is what the lock names: somebody who just added a library need not wait again. */
function isInstalled(lock) {
  const file = path.join(root, 'node_modules/.package-lock.json');
  if (!existsSync(file)) return false;
  const there = JSON.parse(readFileSync(file, 'utf8')).packages;
  return Object.entries(lock.packages).every(
    ([at, { version, optional }]) => at === '' || optional || there[at]?.version === version,
  );
}

/** The user's own Node when it is new enough, else the private copy, found by its path and never through .bin. */
function findNode() {
  if (Number(process.versions.node.split('.')[0]) >= NODE_NEEDED) return process.execPath;
  const platform = process.platform === 'win32' ? 'win' : process.platform;
  const folder = path.join(root, 'node_modules', `node-${platform}-${process.arch}`, 'bin');
  const found = ['node.exe', 'node'].map((name) => path.join(folder, name)).find((file) => existsSync(file));
  if (found) return found;
  console.error(
    `Rakelight needs Node.js ${NODE_NEEDED} or newer. This is ${process.version}, and there is no private copy ` +
      `for ${process.platform}-${process.arch}. Install Node.js ${NODE_NEEDED} and start again.`,
  );
  return process.exit(1);
}

const tsc = (project) => ['types', ['node_modules/typescript/bin/tsc', '-p', `tsconfig.${project}.json`]];
const build = ['build', ['electron/build.mjs', '--if-changed']];
const CHECKS = [
  ...['core', 'pure', 'electron', 'web', 'tests'].map(tsc),
  ['lint', ['node_modules/@biomejs/biome/bin/biome', 'check', '--error-on-warnings']],
];
const VITEST = ['node_modules/vitest/vitest.mjs', 'run'];
const TASKS = {
  start: () => inOrder([build, ['start', [`${dist}/electron/start.js`, ...rest]]]),
  test: () => counted([...CHECKS, build], [...VITEST, '--project=!faults', ...rest]),
  build: () => inOrder([['build', ['electron/build.mjs', ...rest]]]),
  check: () => counted(CHECKS, []),
  bench: () => inOrder([build, ['bench', ['tests/bench/bench.ts', ...rest]]]),
  seed: () => inOrder([build, ['seed', [`${dist}/electron/seed.js`, ...rest]]]),
  shots: () => inOrder([build, ['shots', ['tests/e2e/shots.ts', ...rest]]]),
  schema: () => inOrder([['schema', ['tests/helpers/writeSchema.ts']]]),
  doctor: () => inOrder([build, ['doctor', [`${dist}/electron/doctor.js`, ...rest]]]),
  door: () => inOrder([build, ['door', [`${dist}/electron/door.js`, ...rest]]]),
  faults: () => counted([build], [...VITEST, '--project=faults', ...rest]),
};

async function inOrder(steps) {
  for (const [, args] of steps) {
    const status = await run(node, args, { env });
    if (status !== 0) return status;
  }
  return 0;
}

/** Runs every check even after a failed one, then the tests, and ends with one line of counts. */
async function counted(checks, tests) {
  const counts = { passed: 0, failed: 0, skipped: 0 };
  let built = true;
  for (const [name, args] of checks) {
    const ok = (await run(node, args, { env })) === 0;
    counts[ok ? 'passed' : 'failed'] += 1;
    if (!ok) console.error(`failed: ${args.slice(1).join(' ')} (${name})`);
    if (!ok && name === 'build') built = false;
  }
  if (tests.length > 0 && built) await addTests(tests, counts);
  if (!built) console.error('The build failed, so no test was run.');
  const skipped = counts.skipped > 0 ? `, ${counts.skipped} skipped` : '';
  console.log(`${counts.passed} passed, ${counts.failed} failed${skipped}`);
  return counts.failed === 0 ? 0 : 1;
}

/** A test run that ends without leaving its counts, or with an error outside any test, is a failure of its own. */
async function addTests(tests, counts) {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'rakelight-counts-'));
  const file = path.join(folder, 'counts.json');
  const reporters = ['--reporter=default', '--reporter=./electron/countReporter.mjs'];
  const status = await run(node, [...tests, ...reporters], { env: { ...env, RAKELIGHT_COUNTS: file } });
  const found = existsSync(file)
    ? JSON.parse(readFileSync(file, 'utf8'))
    : { passed: 0, failed: 0, skipped: 0 };
  rmSync(folder, { recursive: true, force: true });
  for (const key of ['passed', 'failed', 'skipped']) counts[key] += found[key];
  if (status !== 0 && found.failed === 0) counts.failed += 1;
}

if (!Object.hasOwn(TASKS, task)) {
  console.error(`Tasks: ${Object.keys(TASKS).join(', ')}`);
  process.exit(2);
}
await install();
const node = findNode();
const env = { ...process.env, PATH: path.dirname(node) + path.delimiter + process.env.PATH };
process.exit(await TASKS[task]());
