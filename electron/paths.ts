import { readFileSync } from 'node:fs';
import path from 'node:path';

/** Where the built parts lie beside each other. Right only in the built files: this folder is dist/electron there. */
const dist = path.resolve(import.meta.dirname, '..');

export const RENDERER_DIR = path.join(dist, 'renderer');
export const PRELOAD_FILE = path.join(dist, 'electron', 'preload.cjs');
export const MAIN_FILE = path.join(dist, 'electron', 'main.js');
export const MIGRATIONS_DIR = path.join(dist, 'migrations');
export const WORKER_FILE = path.join(dist, 'core', 'worker.js');
export const DOCTOR_FILE = path.join(dist, 'core', 'doctorWorker.js');
export const SEED_FILE = path.join(dist, 'seed', 'worker.js');

/** The program's version, as package.json beside the built folder says. */
export function versionOf(): string {
  const text = readFileSync(path.join(dist, 'version.json'), 'utf8');
  return (JSON.parse(text) as { readonly version: string }).version;
}
