// Four Vite builds into one folder: the page, Electron's main and command-line programs, the preload, the core's
// workers. Built beside the old folder and swapped in, so that a running Rakelight never sees half a build.
import { createHash } from 'node:crypto';
import { cp, mkdir, readdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { builtinModules } from 'node:module';
import path from 'node:path';
import react from '@vitejs/plugin-react';
import { build } from 'vite';

const root = path.resolve(import.meta.dirname, '..');
const target = path.resolve(root, process.env.RAKELIGHT_DIST || 'dist');
const SOURCES = ['core', 'electron', 'renderer', 'migrations', 'seed', 'package.json', 'package-lock.json'];
/** Left out of the bundles: native code, and libraries that read files beside themselves. */
const OUTSIDE = ['electron', 'better-sqlite3', 'pdfkit', 'bwip-js'];
const external = [
  /^node:/,
  ...OUTSIDE.map((name) => new RegExp(`^${name}($|/)`)),
  ...builtinModules.map((name) => new RegExp(`^${name}$`)),
];

function nodeBuild(outDir, entries, output) {
  return build({
    configFile: false,
    root,
    logLevel: 'warn',
    publicDir: false,
    resolve: { conditions: ['node', 'module', 'import', 'default'] },
    ssr: { noExternal: true, external: OUTSIDE },
    build: {
      ssr: true,
      outDir,
      emptyOutDir: false,
      target: 'node24',
      minify: false,
      sourcemap: true,
      reportCompressedSize: false,
      rollupOptions: { input: entries, external, output },
    },
  });
}

function pageBuild(outDir) {
  return build({
    configFile: false,
    root: path.join(root, 'renderer'),
    base: '/',
    logLevel: 'warn',
    plugins: [react()],
    build: {
      outDir,
      emptyOutDir: false,
      target: 'es2023',
      // Nothing inline and no polyfill script: the page's content security policy needs no exception.
      assetsInlineLimit: 0,
      modulePreload: { polyfill: false },
      reportCompressedSize: false,
      chunkSizeWarningLimit: 4000,
    },
  });
}

async function filesUnder(name) {
  const at = path.join(root, name);
  const found = await stat(at).catch(() => null);
  if (!found) return [];
  if (found.isFile()) return [name];
  const inside = await readdir(at, { recursive: true, withFileTypes: true });
  return inside
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(root, path.join(entry.parentPath, entry.name)));
}

/** Names and contents of everything that goes into the build. */
async function fingerprint() {
  const files = (await Promise.all(SOURCES.map(filesUnder))).flat().sort();
  const hash = createHash('sha256').update(process.version.split('.')[0]);
  for (const file of files) hash.update(`\0${file}\0`).update(await readFile(path.join(root, file)));
  return hash.digest('hex');
}

/** Programs started by name: each becomes one file of its own name. */
async function entriesOf(folder, chosen) {
  const names = await readdir(path.join(root, folder)).catch(() => []);
  const wanted = names.filter((name) => name.endsWith('.ts') && chosen(name));
  return Object.fromEntries(wanted.map((name) => [name.slice(0, -3), path.join(root, folder, name)]));
}

async function buildAll(into) {
  const start = Object.fromEntries(
    ['main', 'start'].map((name) => [name, path.join(root, `electron/${name}.ts`)]),
  );
  const cli = await entriesOf('electron/cli', () => true);
  const workers = await entriesOf('core/host', (name) => /worker\.ts$/i.test(name));
  // All in one folder: the programs find their neighbours from their own place.
  const esm = { format: 'es', entryFileNames: '[name].js', chunkFileNames: '[name]-[hash].js' };
  await pageBuild(path.join(into, 'renderer'));
  await nodeBuild(path.join(into, 'electron'), { ...start, ...cli }, esm);
  // A sandboxed preload cannot be an ES module and cannot load a second file.
  await nodeBuild(
    path.join(into, 'electron'),
    { preload: path.join(root, 'electron/preload.ts') },
    { format: 'cjs', entryFileNames: '[name].cjs', codeSplitting: false },
  );
  await nodeBuild(path.join(into, 'core'), workers, esm);
  const seed = await entriesOf('seed', (name) => name === 'worker.ts');
  if (Object.keys(seed).length > 0) await nodeBuild(path.join(into, 'seed'), seed, esm);
  const { version } = JSON.parse(await readFile(path.join(root, 'package.json'), 'utf8'));
  await writeFile(path.join(into, 'version.json'), JSON.stringify({ version }));
  await cp(path.join(root, 'migrations'), path.join(into, 'migrations'), { recursive: true });
  await copyFonts(path.join(into, 'core/fonts'));
}

/** The faces that printed documents embed: read as files at run time, so that they work without node_modules. */
async function copyFonts(into) {
  const { FONT_FILES } = await import('../core/documents/pdfFonts.ts');
  for (const { family, file } of FONT_FILES)
    await cp(path.join(root, 'node_modules/@fontsource', family, 'files', file), path.join(into, file));
}

async function swapIn(part) {
  const old = `${target}.old-${process.pid}`;
  await mkdir(path.dirname(target), { recursive: true });
  await rename(target, old).catch(() => undefined);
  await rename(part, target);
  await rm(old, { recursive: true, force: true });
}

const began = performance.now();
const stamp = path.join(target, '.sources');
const now = await fingerprint();
const same = (await readFile(stamp, 'utf8').catch(() => '')) === now;
if (!same || !process.argv.includes('--if-changed')) {
  const part = `${target}.part-${process.pid}`;
  await rm(part, { recursive: true, force: true });
  try {
    await buildAll(part);
    await writeFile(path.join(part, '.sources'), now);
    await swapIn(part);
    // To stderr: what a command prints as its answer stays alone on stdout.
    console.error(`built in ${Math.round(performance.now() - began)} ms`);
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  } finally {
    await rm(part, { recursive: true, force: true });
  }
}
