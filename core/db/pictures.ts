import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import type Database from 'better-sqlite3';

/** Where a picture lies under a data folder or its folder of copies: named by the SHA-256 of its bytes, in hex. */
export function pictureFile(folder: string, hash: string): string {
  return path.join(folder, 'pictures', hash.slice(0, 2), hash);
}

/** Tables whose rows name a file by its hash, until the row is taken back. */
const NAMING = ['picture', 'data_sheet'] as const;

/** Hashes of the pictures, data sheets and logos that a shop file shows; none in a file from before there were any. */
export function picturesShown(raw: Database.Database): readonly string[] {
  const known = raw.prepare("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?");
  const shown = new Set<string>();
  for (const table of NAMING.filter((name) => known.get(name)))
    for (const hash of raw.prepare(`SELECT hash FROM ${table} WHERE removed_ms IS NULL`).pluck().all())
      shown.add(String(hash));
  // Documents keep the logo they were issued under, so one that was replaced is shown still.
  if (known.get('shop_logo'))
    for (const hash of raw.prepare('SELECT hash FROM shop_logo').pluck().all()) shown.add(String(hash));
  return [...shown].sort();
}

/** True when the file is there and its bytes are those it is named by. */
export function isPictureWhole(file: string, hash: string): boolean {
  return existsSync(file) && createHash('sha256').update(readFileSync(file)).digest('hex') === hash;
}

/** Names of all files in the pictures of a folder, half-written ones included. */
export function pictureNames(folder: string): readonly string[] {
  const at = path.join(folder, 'pictures');
  if (!existsSync(at)) return [];
  return readdirSync(at, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => entry.name);
}
