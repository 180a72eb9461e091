import { existsSync, mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import { backupDir, DATABASE_FILE, stampOf, verifyCopy } from './backup.ts';
import { migrate } from './migrate.ts';
import type { MigrationFile } from './migrationFiles.ts';
import { openForWriting } from './open.ts';
import { bringPicturesBack } from './pictureCopies.ts';

const ASIDE = 'aside-';
/** A database, and what SQLite may keep beside it. */
const PARTS = ['', '-wal', '-shm', '-journal'] as const;

/** Where the replaced files went, and how many pictures of the restored shop could not be found anywhere. */
export type Restored = { readonly asideDir: string; readonly missingPictures: number };

const shopFileOf = (dataDir: string): string => path.join(dataDir, DATABASE_FILE);
const incomingOf = (dataDir: string): string => `${shopFileOf(dataDir)}.incoming`;

/**
 * Puts a verified backup in the database's place and brings its pictures back. The present files are kept aside under
 * `aside-…`, never deleted, and are not touched before the copy was opened and brought up to date by this program.
 * Nobody may have the database open.
 * @throws StorageFault damaged, newer or foreign when this program cannot use the copy
 */
export async function restoreFile(
  dataDir: string,
  fileName: string,
  nowMs: number,
  migrations: readonly MigrationFile[],
): Promise<Restored> {
  const source = path.join(backupDir(dataDir), path.basename(fileName));
  verifyCopy(source);
  const incoming = incomingOf(dataDir);
  copyWhole(source, incoming);
  makeReady(incoming, migrations, nowMs);
  const missingPictures = await bringPicturesBack(incoming, backupDir(dataDir), dataDir);
  const asideDir = path.join(dataDir, `${ASIDE}${stampOf(nowMs)}`);
  mkdirSync(asideDir, { recursive: true });
  swapIn(dataDir, asideDir);
  return { asideDir, missingPictures };
}

/**
 * Ends a restore that was cut short: with the old file aside already the new one, which is whole by then, comes in. A
 * copy that was cut short before that is taken away; it is still among the copies.
 */
export function finishRestore(dataDir: string): void {
  if (existsSync(shopFileOf(dataDir))) dropIncoming(dataDir);
  else if (existsSync(incomingOf(dataDir))) swapIn(dataDir, latestAside(dataDir));
}

/** The folder that the old file went to: a restore makes it before it moves anything. */
function latestAside(dataDir: string): string {
  const names = readdirSync(dataDir).filter((name) => name.startsWith(ASIDE));
  return path.join(dataDir, names.sort().at(-1) ?? '');
}

/** The old file goes with its log, which must never be read into the new one. */
function swapIn(dataDir: string, asideDir: string): void {
  for (const part of PARTS) {
    const present = shopFileOf(dataDir) + part;
    if (existsSync(present)) renameSync(present, path.join(asideDir, DATABASE_FILE + part));
  }
  renameSync(incomingOf(dataDir), shopFileOf(dataDir));
}

function dropIncoming(dataDir: string): void {
  for (const part of PARTS) rmSync(incomingOf(dataDir) + part, { force: true });
}

/** More vouchers than are sold between two copies. */
const VOUCHERS_SINCE = 1000;

/**
 * Opens the copy as the shop will be. Documents issued since the copy may exist on paper: billing must ask for the last
 * number before it issues again. Vouchers sold since are in people's hands: their numbers are left out, so that none of
 * them is taken for one sold later. Theirs may have gaps.
 */
function makeReady(file: string, migrations: readonly MigrationFile[], nowMs: number): void {
  const db = openForWriting(file);
  try {
    migrate(db, migrations, nowMs);
    db.raw.exec('UPDATE issue_check SET ask = 1');
    db.raw
      .prepare(
        `INSERT INTO sequence (name, next) VALUES ('voucher', 1 + :since)
        ON CONFLICT (name) DO UPDATE SET next = next + :since`,
      )
      .run({ since: VOUCHERS_SINCE });
    // Whoever only reads it from here on leaves no log beside it.
    db.raw.pragma('journal_mode = DELETE');
  } finally {
    db.raw.close();
  }
}

function copyWhole(source: string, target: string): void {
  for (const part of PARTS) rmSync(target + part, { force: true });
  const copy = new Database(source, { readonly: true, fileMustExist: true });
  try {
    copy.prepare('VACUUM INTO ?').run(target);
  } finally {
    copy.close();
  }
}
