import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import { StorageFault } from './faults.ts';
import { APPLICATION_ID } from './migrate.ts';
import { copyPictures, dropUnshown } from './pictureCopies.ts';

export const DATABASE_FILE = 'rakelight.sqlite';
/** Copies kept of each sort; none pushes out those of another. */
const KEPT = { daily: 14, migration: 10, asked: 10, restore: 10 } as const;

export type BackupReason = keyof typeof KEPT;
export type BackupFile = {
  readonly fileName: string;
  readonly bytes: number;
  readonly atMs: number;
  readonly reason: BackupReason;
};

export function backupDir(dataDir: string): string {
  return path.join(dataDir, 'backups');
}

/** An instant as names of files and folders carry it, UTC: `2026-11-25T09-00-00`. */
export function stampOf(ms: number): string {
  return new Date(ms).toISOString().slice(0, 19).replaceAll(':', '-');
}

/** What a program leaves that is killed while it makes a copy. */
const HALF_MADE = /\.part(-journal)?$/;

/** A copy just made; `missingPictures` = pictures that the shop shows but whose files are gone or spoiled. */
export type BackupMade = BackupFile & { readonly missingPictures: number };

/**
 * Copies the running database with SQLite's own backup, opens the copy to verify it, then gives it its name:
 * a half-written copy never carries a backup's name. Its pictures are copied before.
 */
export async function backup(
  raw: Database.Database,
  dataDir: string,
  reason: BackupReason,
  nowMs: number,
): Promise<BackupMade> {
  const dir = backupDir(dataDir);
  mkdirSync(dir, { recursive: true });
  const fileName = `${stampOf(nowMs)}_${reason}.sqlite`;
  const part = path.join(dir, `${fileName}.part`);
  for (const left of readdirSync(dir).filter((name) => HALF_MADE.test(name))) rmSync(path.join(dir, left));
  await raw.backup(part);
  asOneFile(part);
  verifyFresh(raw, part);
  const missingPictures = await copyPictures(part, dataDir, dir);
  const file = path.join(dir, fileName);
  renameSync(part, file);
  rotate(dir);
  return { fileName, bytes: statSync(file).size, atMs: nowMs, reason, missingPictures };
}

/** Without the log of a running database: whoever takes the copy elsewhere takes all of it. */
function asOneFile(file: string): void {
  const copy = new Database(file, { fileMustExist: true });
  copy.pragma('journal_mode = DELETE');
  copy.close();
}

/** A fresh copy that does not read cleanly: is it the copy's disk, or is the shop file itself spoiled? */
function verifyFresh(raw: Database.Database, part: string): void {
  try {
    verifyCopy(part);
  } catch (error) {
    if (raw.pragma('quick_check', { simple: true }) !== 'ok') throw error;
    throw new Error('the copy does not read cleanly, the shop file does');
  }
}

/**
 * Opens a copy read-only and checks it.
 * @throws StorageFault damaged when it is not a whole Rakelight database
 */
export function verifyCopy(file: string): void {
  const copy = new Database(file, { readonly: true, fileMustExist: true });
  try {
    const check = copy.pragma('quick_check', { simple: true });
    const id = copy.pragma('application_id', { simple: true });
    if (check !== 'ok' || id !== APPLICATION_ID) throw new StorageFault('damaged', String(check));
  } finally {
    copy.close();
  }
}

/** Backups in the folder, newest first. */
export function listBackups(dataDir: string): readonly BackupFile[] {
  const dir = backupDir(dataDir);
  if (!existsSync(dir)) return [];
  return readdirSync(dir)
    .map((fileName) => ({
      fileName,
      match: /^(\d{4}-\d\d-\d\dT\d\d-\d\d-\d\d)_(daily|migration|asked|restore)\.sqlite$/.exec(fileName),
    }))
    .flatMap(({ fileName, match }) => {
      if (!match?.[1] || !match[2]) return [];
      const atMs = Date.parse(`${match[1].slice(0, 10)}T${match[1].slice(11).replaceAll('-', ':')}Z`);
      return [
        { fileName, bytes: statSync(path.join(dir, fileName)).size, atMs, reason: match[2] as BackupReason },
      ];
    })
    .sort((a, b) => b.atMs - a.atMs);
}

function rotate(dir: string): void {
  const all = listBackups(path.dirname(dir));
  const old = Object.entries(KEPT).flatMap(([sort, kept]) =>
    all.filter((b) => b.reason === sort).slice(kept),
  );
  for (const { fileName } of old) rmSync(path.join(dir, fileName));
  const kept = all.filter((copy) => !old.includes(copy)).map(({ fileName }) => path.join(dir, fileName));
  try {
    dropUnshown(dir, kept);
  } catch {
    // A copy that cannot be read may show any of them: all stay.
  }
}
