import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { backup, backupDir } from '#core/db/backup.ts';
import { migrate } from '#core/db/migrate.ts';
import { readMigrations } from '#core/db/migrationFiles.ts';
import { openForWriting } from '#core/db/open.ts';
import { restoreFile } from '#core/db/restore.ts';
import type { WriteDb } from '#core/db/types.ts';
import { closeShop, openShop } from '#core/host/openShop.ts';

const migrations = path.resolve(import.meta.dirname, '../../../migrations');
const files = readMigrations(migrations);
const MORNING = Date.parse('2026-11-25T09:00:00Z');
let dir: string;
let file: string;
let incoming: string;
let aside: string;

beforeEach(() => {
  dir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-test-'));
  file = path.join(dir, 'rakelight.sqlite');
  incoming = `${file}.incoming`;
  aside = path.join(dir, 'aside-2026-11-25T09-00-00');
});
afterEach(() => rmSync(dir, { recursive: true, force: true }));

function mark(db: WriteDb, name: string): void {
  db.raw.prepare('INSERT INTO sequence (name, next) VALUES (?, 1)').run(name);
}
const marksIn = (at: string): unknown => {
  const db = new Database(at, { readonly: true });
  try {
    return db.prepare('SELECT name FROM sequence ORDER BY name').pluck().all();
  } finally {
    db.close();
  }
};
/** A shop with one mark, and a copy of it from before. */
async function shopWithCopy(): Promise<string> {
  const db = await openShop(dir, migrations, 1);
  const { fileName } = await backup(db.raw, dir, 'asked', MORNING);
  mark(db, 'present');
  closeShop(db);
  return fileName;
}

/** The shop file and whatever lies beside it under its name. */
const namesOf = (folder: string): readonly string[] =>
  readdirSync(folder).filter((name) => name.startsWith('rakelight.sqlite'));

describe('a copy that was put in place', () => {
  it('leaves nothing beside the shop file', async () => {
    await restoreFile(dir, await shopWithCopy(), MORNING, files);
    expect(namesOf(dir)).toEqual(['rakelight.sqlite']);
  });

  it('never gives a voucher the number of one that was sold since', async () => {
    const nextIn = (): unknown => {
      const db = new Database(file, { readonly: true });
      const next = db.prepare("SELECT next FROM sequence WHERE name = 'voucher'").pluck().get();
      db.close();
      return next;
    };
    const fileName = await shopWithCopy();
    await restoreFile(dir, fileName, MORNING, files);
    expect(nextIn()).toBe(1001);
    await restoreFile(dir, fileName, MORNING + 60_000, files);
    expect(nextIn()).toBe(1001);
  });
});

describe('a copy that this program cannot open', () => {
  it.each([
    ['of a newer version', 'PRAGMA user_version = 99', 'newer'],
    ['of another build', "UPDATE migration SET hash = 'x' WHERE number = 1", 'foreign'],
  ])('%s is refused while the present file is still in its place', async (_, spoil, kind) => {
    const fileName = await shopWithCopy();
    const copy = new Database(path.join(backupDir(dir), fileName));
    copy.exec(spoil);
    copy.close();
    const before = readFileSync(file);
    await expect(restoreFile(dir, fileName, MORNING, files)).rejects.toMatchObject({ kind });
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  it('but an older one is brought up to date before it comes in', async () => {
    const db = await openShop(dir, migrations, 1);
    closeShop(db);
    mkdirSync(backupDir(dir));
    const name = '2026-11-24T09-00-00_asked.sqlite';
    const old = openForWriting(path.join(backupDir(dir), name));
    migrate(old, files.slice(0, 3), 1);
    old.raw.pragma('journal_mode = DELETE');
    old.raw.close();
    await restoreFile(dir, name, MORNING, files);
    const restored = await openShop(dir, migrations, 2);
    expect(restored.raw.pragma('user_version', { simple: true })).toBe(files.length);
    expect(restored.raw.prepare('SELECT ask FROM issue_check').pluck().get()).toBe(1);
    closeShop(restored);
  });
});

describe('a restore that was cut short', () => {
  it('between the old file and the new one is ended by the next start, which would find no shop otherwise', async () => {
    await shopWithCopy();
    mkdirSync(aside);
    copyFileSync(path.join(backupDir(dir), readdirSync(backupDir(dir))[0] ?? ''), incoming);
    renameSync(file, path.join(aside, 'rakelight.sqlite'));
    const db = await openShop(dir, migrations, 2);
    expect(db.raw.prepare('SELECT count(*) FROM sequence').pluck().get()).toBe(0);
    closeShop(db);
    expect(existsSync(incoming)).toBe(false);
    expect(marksIn(path.join(aside, 'rakelight.sqlite'))).toEqual(['present']);
  });

  it('does not read what the old file had in its log into the new one', async () => {
    const fileName = await shopWithCopy();
    const db = await openShop(dir, migrations, 2);
    mark(db, 'in the log');
    const log = path.join(dir, 'kept.log');
    copyFileSync(`${file}-wal`, log);
    closeShop(db);
    mkdirSync(aside);
    copyFileSync(path.join(backupDir(dir), fileName), incoming);
    renameSync(file, path.join(aside, 'rakelight.sqlite'));
    renameSync(log, `${file}-wal`);
    const restored = await openShop(dir, migrations, 3);
    expect(restored.raw.prepare('SELECT count(*) FROM sequence').pluck().get()).toBe(0);
    closeShop(restored);
    expect(readdirSync(aside)).toContain('rakelight.sqlite-wal');
  });

  it('before that leaves nothing that could come in later', async () => {
    const fileName = await shopWithCopy();
    copyFileSync(path.join(backupDir(dir), fileName), incoming);
    writeFileSync(`${incoming}-journal`, 'of a copy that is not there any more');
    const db = await openShop(dir, migrations, 2);
    expect(db.raw.prepare('SELECT name FROM sequence').pluck().all()).toEqual(['present']);
    closeShop(db);
    expect(namesOf(dir)).toEqual(['rakelight.sqlite']);
  });
});
