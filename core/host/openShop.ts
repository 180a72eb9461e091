import { existsSync, mkdirSync } from 'node:fs';
import path from 'node:path';
import { backup, DATABASE_FILE } from '../db/backup.ts';
import { StorageFault } from '../db/faults.ts';
import { forgetLeft, isAsLeft, noteLeft } from '../db/leftAs.ts';
import { migrate } from '../db/migrate.ts';
import { readMigrations } from '../db/migrationFiles.ts';
import { openForWriting } from '../db/open.ts';
import { finishRestore } from '../db/restore.ts';
import type { WriteDb } from '../db/types.ts';

/**
 * Opens the shop file of a data folder: ends a restore that was cut short, checks the file, backs it up when migrations
 * are due, brings it up to date.
 * The whole file is read only when it was not closed properly or was changed since: that takes a third of a second
 * for two years of work. A page that spoils on the disk without a trace is found by the day's copy, which is read whole.
 * A file that fails its check is left exactly as it is.
 * @throws StorageFault damaged | newer | foreign
 */
export async function openShop(dataDir: string, migrationsDir: string, now: number): Promise<WriteDb> {
  mkdirSync(dataDir, { recursive: true, mode: 0o700 });
  finishRestore(dataDir);
  const file = path.join(dataDir, DATABASE_FILE);
  const isOld = existsSync(file);
  const db = openForWriting(file);
  try {
    if (isOld && !isAsLeft(file) && db.raw.pragma('quick_check', { simple: true }) !== 'ok')
      throw new StorageFault('damaged', 'quick_check');
    const files = readMigrations(migrationsDir);
    const at = db.raw.pragma('user_version', { simple: true }) as number;
    if (isOld && at > 0 && at < files.length) await backup(db.raw, dataDir, 'migration', now);
    migrate(db, files, now);
    forgetLeft(file);
    return db;
  } catch (error) {
    db.raw.close();
    throw error;
  }
}

/** Closes the only connection that writes, and notes how the file was left. */
export function closeShop(db: WriteDb): void {
  const file = db.raw.name;
  db.raw.close();
  noteLeft(file);
}
