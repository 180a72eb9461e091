import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { backup, backupDir } from '#core/db/backup.ts';
import { readMigrations } from '#core/db/migrationFiles.ts';
import { pictureFile } from '#core/db/pictures.ts';
import { restoreFile } from '#core/db/restore.ts';
import type { WriteDb } from '#core/db/types.ts';
import { openShop } from '#core/host/openShop.ts';

const migrations = path.resolve(import.meta.dirname, '../../../migrations');
const MORNING = Date.parse('2026-11-25T09:00:00Z');
const HOUR = 3_600_000;
let dir: string;
let db: WriteDb;

beforeEach(async () => {
  dir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-test-'));
  db = await openShop(dir, migrations, 1);
  db.raw.exec(`INSERT INTO customer (id,kind,name,phone,phone_key,email,address,country,tax_number,locale,note,created_ms)
      VALUES ('c','person','Marit Vane','','','','','','','','',1);
    INSERT INTO vehicle (id,customer_id,body,make_model,colour,plate,plate_key,vin,hardness,note,created_ms)
      VALUES ('v','c','van','','','','','','soft','',1);
    INSERT INTO job (id,number,customer_id,vehicle_id,purpose,state,wish,created_ms)
      VALUES ('j',1,'c','v','correction','enquiry','',1);`);
});
afterEach(() => {
  if (db.raw.open) db.raw.close();
  rmSync(dir, { recursive: true, force: true });
});

/** A picture that the shop shows: its file and its row. */
function addPicture(text: string): string {
  const hash = createHash('sha256').update(text).digest('hex');
  const file = pictureFile(dir, hash);
  mkdirSync(path.dirname(file), { recursive: true });
  writeFileSync(file, text);
  db.raw
    .prepare(
      "INSERT INTO picture (id, job_id, phase, hash, mime, consent, taken_ms) VALUES (?, 'j', 'before', ?, 'image/png', 'record', 1)",
    )
    .run(`p-${text}`, hash);
  return hash;
}
const copied = (hash: string): boolean => existsSync(pictureFile(backupDir(dir), hash));
const copy = (hours = 0) => backup(db.raw, dir, 'asked', MORNING + hours * HOUR);

describe('the pictures of a shop', () => {
  it('are in its copies, and come back with them when the whole folder was lost', async () => {
    const hash = addPicture('a bonnet');
    const { fileName, missingPictures } = await copy();
    expect(missingPictures).toBe(0);
    db.raw.close();
    rmSync(path.join(dir, 'pictures'), { recursive: true });
    expect(await restoreFile(dir, fileName, MORNING, readMigrations(migrations))).toMatchObject({
      missingPictures: 0,
    });
    expect(readFileSync(pictureFile(dir, hash), 'utf8')).toBe('a bonnet');
  });

  it('are copied once, as files of their own', async () => {
    const first = addPicture('a bonnet');
    await copy();
    const kept = pictureFile(backupDir(dir), first);
    writeFileSync(pictureFile(dir, first), 'spoiled on the disk');
    const second = addPicture('a roof');
    expect((await copy(1)).missingPictures).toBe(0);
    expect(readFileSync(kept, 'utf8')).toBe('a bonnet');
    expect(copied(second)).toBe(true);
  });

  it('are counted as missing where their file is gone or spoiled, and a spoiled one is not copied', async () => {
    const gone = addPicture('gone');
    const spoiled = addPicture('spoiled');
    rmSync(pictureFile(dir, gone));
    writeFileSync(pictureFile(dir, spoiled), 'something else');
    expect((await copy()).missingPictures).toBe(2);
    expect(copied(gone) || copied(spoiled)).toBe(false);
  });

  it('replace a spoiled one on going back, and what is nowhere whole is counted', async () => {
    const good = addPicture('good');
    const lost = addPicture('lost');
    const { fileName } = await copy();
    db.raw.close();
    writeFileSync(pictureFile(dir, good), 'spoiled on the disk');
    writeFileSync(pictureFile(dir, lost), 'spoiled on the disk');
    writeFileSync(pictureFile(backupDir(dir), lost), 'spoiled there too');
    const restored = await restoreFile(dir, fileName, MORNING, readMigrations(migrations));
    expect(readFileSync(pictureFile(dir, good), 'utf8')).toBe('good');
    expect(restored.missingPictures).toBe(1);
  });

  it('leave with the last copy that shows them', async () => {
    const hash = addPicture('of somebody who asked to be forgotten');
    await copy();
    db.raw.exec('UPDATE picture SET removed_ms = 2');
    for (let hours = 1; hours < 10; hours += 1) await copy(hours);
    expect(copied(hash)).toBe(true);
    await copy(10);
    expect(copied(hash)).toBe(false);
  });

  it('all stay while one of the copies cannot be read', async () => {
    const hash = addPicture('a bonnet');
    await copy();
    db.raw.exec('UPDATE picture SET removed_ms = 2');
    const { fileName } = await copy(1);
    writeFileSync(path.join(backupDir(dir), fileName), 'no database');
    for (let hours = 2; hours < 11; hours += 1) await copy(hours);
    expect(copied(hash)).toBe(true);
  });

  it('leave nothing half written beside the copies', async () => {
    addPicture('a bonnet');
    await copy();
    const names = readdirSync(backupDir(dir), { recursive: true, encoding: 'utf8' });
    expect(names.filter((name) => /\.part$|-wal$|-shm$/.test(name))).toEqual([]);
  });
});
