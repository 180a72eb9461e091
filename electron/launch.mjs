// `npm start`, `npm test` and the rest, on any Node from 18 and any npm: installs if needed, then runs the task
// under Node 24. Plain JavaScript without dependencies, because it runs before anything is installed.
// Not a prestart hook: npm's `ignore-scripts` silently switches hooks off.
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, lstatSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const NODE_NEEDED = 24;
const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
const [task, ...rest] = process.argv.slice(2);
const dist = process.env.RAKELIGHT_DIST || 'dist';

const running = new Set();
// Whoever stops this process means the steps that run; they close by themselves and the exit code is passed on.
const stopAll = (signal) => {
  for (const child of running) child.kill(signal);
};
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => stopAll(signal));

// A stop sent to npm alone ends npm's shell, which does not pass it on: then nobody is left who could stop us.
const parent = process.ppid;
if (process.env.npm_lifecycle_event && process.platform !== 'win32')
  setInterval(() => process.ppid !== parent && stopAll('SIGTERM'), 500).unref();

function run(command, args, options = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, {
      cwd: root,
      stdio: 'inherit',
      shell: command.endsWith('.cmd'),
      ...options,
    });
    running.add(child);
    for (const stream of [child.stdout, child.stderr]) stream?.on('data', (part) => options.held.push(part));
    child.once('error', reject);
    child.once('close', (code, signal) => {
      running.delete(child);
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
  if (lstatSync(path.join(root, 'node_modules'), { throwIfNoEntry: false })?.isSymbolicLink()) {
    console.error(
      'node_modules is a link, and what it leads to may serve others: nothing is installed through it.',
    );
    process.exit(1);
  }
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
const ALL = [...VITEST, '--project=!faults'];
/** Side by side on two cores, about as long each. The screens are watched; the rest tells its tale when it is over. */
const LANES = [
  { checks: [], tests: [...VITEST, '--project=screens'] },
  { checks: CHECKS, tests: [...VITEST, '--project=core', '--project=bridge', '--maxWorkers=50%'], held: [] },
];
const TASKS = {
  start: () => inOrder([build, ['start', [`${dist}/electron/start.js`, ...rest]]]),
  test: () => counted(rest.length > 0 ? [{ checks: CHECKS, tests: [...ALL, ...rest] }] : LANES),
  build: () => inOrder([['build', ['electron/build.mjs', ...rest]]]),
  check: () => counted([{ checks: CHECKS, tests: [] }]),
  bench: () => inOrder([build, ['bench', ['tests/bench/bench.ts', ...rest]]]),
  seed: () => inOrder([build, ['seed', [`${dist}/electron/seed.js`, ...rest]]]),
  shots: () => inOrder([build, ['shots', ['tests/e2e/shots.ts', ...rest]]]),
  schema: () => inOrder([['schema', ['tests/helpers/writeSchema.ts']]]),
  doctor: () => inOrder([build, ['doctor', [`${dist}/electron/doctor.js`, ...rest]]]),
  door: () => inOrder([build, ['door', [`${dist}/electron/door.js`, ...rest]]]),
  faults: () => counted([{ checks: [], tests: [...VITEST, '--project=faults', ...rest] }]),
};

async function inOrder(steps) {
  for (const [, args] of steps) {
    const status = await run(node, args, { env });
    if (status !== 0) return status;
  }
  return 0;
}

/** Builds if any test is to run, goes through all lanes at once, and ends with one line of counts. */
async function counted(lanes) {
  const counts = { passed: 0, failed: 0, skipped: 0 };
  const needsBuild = lanes.some(({ tests }) => tests.length > 0);
  const built = needsBuild ? await addCheck(build, counts, {}) : true;
  if (!built) console.error('The build failed, so no test was run.');
  await Promise.all(lanes.map((lane) => goThrough(built ? lane : { ...lane, tests: [] }, counts)));
  const skipped = counts.skipped > 0 ? `, ${counts.skipped} skipped` : '';
  console.log(`${counts.passed} passed, ${counts.failed} failed${skipped}`);
  return counts.failed === 0 ? 0 : 1;
}

/** Runs every check of a lane even after a failed one, then its tests; what was held back is shown at its end. */
async function goThrough({ checks, tests, held }, counts) {
  const options = held ? { held, stdio: ['ignore', 'pipe', 'pipe'] } : {};
  for (const check of checks) await addCheck(check, counts, options);
  if (tests.length > 0) await addTests(tests, counts, options);
  if (held) process.stdout.write(Buffer.concat(held));
}

async function addCheck([name, args], counts, options) {
  const ok = (await run(node, args, { ...options, env })) === 0;
  counts[ok ? 'passed' : 'failed'] += 1;
  if (!ok) console.error(`failed: ${args.slice(1).join(' ')} (${name})`);
  return ok;
}

/** A test run that ends without leaving its counts, or with an error outside any test, is a failure of its own. */
async function addTests(tests, counts, options) {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'rakelight-counts-'));
  const file = path.join(folder, 'counts.json');
  const reporters = ['--reporter=default', '--reporter=./electron/countReporter.mjs'];
  const status = await run(node, [...tests, ...reporters], {
    ...options,
    env: { ...env, RAKELIGHT_COUNTS: file },
  });
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
