import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { backup, listBackups, verifyCopy } from '#core/db/backup.ts';
import { StorageFault, storageKindOf } from '#core/db/faults.ts';
import { migrate } from '#core/db/migrate.ts';
import { readMigrations } from '#core/db/migrationFiles.ts';
import { openForReading, openForWriting } from '#core/db/open.ts';
import { restoreFile } from '#core/db/restore.ts';
import { openShop } from '#core/host/openShop.ts';
import { schemaDump } from '../helpers/schemaDump.ts';

const root = path.resolve(import.meta.dirname, '../..');
const files = readMigrations(path.join(root, 'migrations'));
let dir: string;
let file: string;

beforeEach(() => {
  dir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-migrate-'));
  file = path.join(dir, 'rakelight.sqlite');
});
afterEach(() => rmSync(dir, { recursive: true, force: true }));

function kindOf(work: () => unknown): string | null {
  try {
    work();
    return 'no fault';
  } catch (error) {
    return storageKindOf(error);
  }
}

describe('the shop file', () => {
  it('has WAL, full sync and foreign keys on every connection', () => {
    const db = openForWriting(file);
    migrate(db, files, 1);
    const reader = openForReading(file);
    for (const { raw } of [db, reader]) {
      expect(raw.pragma('journal_mode', { simple: true })).toBe('wal');
      expect(raw.pragma('synchronous', { simple: true })).toBe(2);
      expect(raw.pragma('foreign_keys', { simple: true })).toBe(1);
    }
    expect(() => reader.raw.exec('DELETE FROM shop')).toThrow(/readonly/);
    reader.raw.close();
    db.raw.close();
  });

  it('matches the committed schema dump after all migrations', () => {
    const db = openForWriting(file);
    migrate(db, files, 1);
    expect(schemaDump(db.raw)).toBe(readFileSync(path.join(root, 'migrations/schema.sql'), 'utf8'));
    db.raw.close();
  });

  it('applies nothing twice', () => {
    const db = openForWriting(file);
    expect(migrate(db, files, 1).applied).toBe(files.length);
    expect(migrate(db, files, 2).applied).toBe(0);
    db.raw.close();
  });

  it('refuses a file from a newer version', () => {
    const db = openForWriting(file);
    migrate(db, files, 1);
    db.raw.pragma(`user_version = ${files.length + 1}`);
    expect(kindOf(() => migrate(db, files, 2))).toBe('newer');
    db.raw.close();
  });

  it('refuses when an applied migration is not the shipped one', () => {
    const db = openForWriting(file);
    migrate(db, files, 1);
    const changed = files.map((f, i) => (i === 0 ? { ...f, hash: 'other' } : f));
    expect(kindOf(() => migrate(db, changed, 2))).toBe('foreign');
    db.raw.close();
  });

  it("leaves another program's database alone", () => {
    const other = new Database(file);
    other.exec('CREATE TABLE theirs (x)');
    other.close();
    const db = openForWriting(file);
    expect(kindOf(() => migrate(db, files, 1))).toBe('foreign');
    expect(db.raw.prepare("SELECT name FROM sqlite_master WHERE type='table'").pluck().all()).toEqual([
      'theirs',
    ]);
    db.raw.close();
  });

  it('rolls a migration back that would lose rows or break a reference', () => {
    const db = openForWriting(file);
    migrate(db, files, 1);
    db.raw.exec("INSERT INTO sequence (name, next) VALUES ('kept', 1)");
    const next = { number: files.length + 1, name: 'bad.sql', hash: 'h' };
    expect(() => migrate(db, [...files, { ...next, sql: 'DELETE FROM sequence' }], 2)).toThrow(/lose rows/);
    const orphan =
      "INSERT INTO vehicle (id, customer_id, body, make_model, colour, plate, plate_key, vin, hardness, note, created_ms) VALUES ('v','nobody','van','','','','','','soft','',1)";
    expect(() => migrate(db, [...files, { ...next, sql: orphan }], 2)).toThrow(/break 1 references/);
    expect(db.raw.prepare('SELECT count(*) FROM sequence').pluck().get()).toBe(1);
    expect(db.raw.pragma('user_version', { simple: true })).toBe(files.length);
    expect(db.raw.pragma('foreign_keys', { simple: true })).toBe(1);
    db.raw.close();
  });

  it('keeps the journal append-only', () => {
    const db = openForWriting(file);
    migrate(db, files, 1);
    db.raw.exec("INSERT INTO journal (at_ms, command, subjects, fields) VALUES (1, 'x', '[]', '[]')");
    expect(() => db.raw.exec('DELETE FROM journal')).toThrow(/append-only/);
    expect(() => db.raw.exec('UPDATE journal SET at_ms = 2')).toThrow(/append-only/);
    db.raw.close();
  });
});

describe('backups', () => {
  it('are verified, listed newest first and restored with the present file kept aside', async () => {
    const db = await openShop(dir, path.join(root, 'migrations'), 1);
    db.raw.exec("INSERT INTO sequence (name, next) VALUES ('before', 1)");
    const copy = await backup(db.raw, dir, 'asked', Date.parse('2026-11-25T09:00:00Z'));
    db.raw.exec("INSERT INTO sequence (name, next) VALUES ('after', 1)");
    db.raw.close();
    expect(listBackups(dir)[0]).toMatchObject({
      fileName: '2026-11-25T09-00-00_asked.sqlite',
      reason: 'asked',
    });
    const { asideDir } = await restoreFile(dir, copy.fileName, Date.parse('2026-11-25T10:00:00Z'), files);
    const restored = await openShop(dir, path.join(root, 'migrations'), 2);
    // What the copy held, and the vouchers whose numbers are left out from now on.
    const names = restored.raw.prepare('SELECT name FROM sequence ORDER BY name').pluck().all();
    expect(names).toEqual(['before', 'voucher']);
    expect(restored.raw.prepare('SELECT ask FROM issue_check').pluck().get()).toBe(1);
    restored.raw.close();
    const aside = new Database(path.join(asideDir, 'rakelight.sqlite'));
    expect(aside.prepare('SELECT count(*) FROM sequence').pluck().get()).toBe(2);
    aside.close();
  });

  it('of one sort never push out those of another', async () => {
    const db = await openShop(dir, path.join(root, 'migrations'), 1);
    const first = Date.parse('2026-11-25T09:00:00Z');
    await backup(db.raw, dir, 'migration', first);
    await backup(db.raw, dir, 'restore', first + 1000);
    for (let i = 2; i < 14; i += 1) await backup(db.raw, dir, 'asked', first + i * 1000);
    db.raw.close();
    const kept = Object.groupBy(listBackups(dir), (copy) => copy.reason);
    expect([kept.asked?.length, kept.migration?.length, kept.restore?.length]).toEqual([10, 1, 1]);
  });

  it('refuse a copy that is not whole', async () => {
    const db = await openShop(dir, path.join(root, 'migrations'), 1);
    db.raw.close();
    const { writeFileSync } = await import('node:fs');
    writeFileSync(path.join(dir, 'half.sqlite'), readFileSync(file).subarray(0, 5000));
    expect(() => verifyCopy(path.join(dir, 'half.sqlite'))).toThrow();
  });

  it('keep a damaged shop file as it is', async () => {
    const db = await openShop(dir, path.join(root, 'migrations'), 1);
    db.raw.close();
    const { writeFileSync } = await import('node:fs');
    const bytes = readFileSync(file);
    bytes.fill(0x5a, 4096, 40_960);
    writeFileSync(file, bytes);
    await expect(openShop(dir, path.join(root, 'migrations'), 2)).rejects.toThrow();
    expect(readFileSync(file).equals(bytes)).toBe(true);
    expect(storageKindOf(new StorageFault('damaged', ''))).toBe('damaged');
  });
});
