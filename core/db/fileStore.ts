import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pictureFile } from './pictures.ts';
import type { ReadDb } from './types.ts';

/** Pictures and data sheets lie beside the shop's file, named by their hash: the same one is stored once. */
function fileOf(db: ReadDb, hash: string): string {
  return pictureFile(path.dirname(db.raw.name), hash);
}

/**
 * Stores a picture or a data sheet and returns its SHA-256 in hex. It is written before the row that names it commits: a file that
 * no row names is harmless, a row without its file is not.
 */
export function storeBytes(db: ReadDb, bytes: Uint8Array): string {
  const hash = createHash('sha256').update(bytes).digest('hex');
  const file = fileOf(db, hash);
  if (existsSync(file)) return hash;
  mkdirSync(path.dirname(file), { recursive: true });
  writeFileSync(`${file}.part`, bytes);
  renameSync(`${file}.part`, file);
  return hash;
}

/** The bytes of a stored one; null when its file is gone. */
export function loadBytes(db: ReadDb, hash: string): Uint8Array | null {
  const file = fileOf(db, hash);
  return existsSync(file) ? readFileSync(file) : null;
}

/** Removes it from the disk; one that is gone already is fine. */
export function removeBytes(db: ReadDb, hash: string): void {
  rmSync(fileOf(db, hash), { force: true });
}
