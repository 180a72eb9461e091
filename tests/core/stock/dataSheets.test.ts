import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { expect, it } from 'vitest';
import { backup, backupDir } from '#core/db/backup.ts';
import { readMigrations } from '#core/db/migrationFiles.ts';
import { pictureFile } from '#core/db/pictures.ts';
import { restoreFile } from '#core/db/restore.ts';
import { examine } from '#core/doctor/doctor.ts';
import { refusal, shelfShop } from './shelf.ts';

const on = shelfShop();
const pdf = Buffer.from(`%PDF-1.7\n${'hazards and first aid '.repeat(20)}`);
const hash = createHash('sha256').update(pdf).digest('hex');
const keep = (bytes: Buffer = pdf, calledAs = 'Compound – sheet v3.PDF') =>
  on.shop.write('stock.addSheet', {
    itemId: on.shelf.compound,
    calledAs,
    sheetBase64: bytes.toString('base64'),
  });
const page = () => on.shop.read('stock.showItem', { itemId: on.shelf.compound });

it('keeps a safety data sheet by its hash beside the shop’s file, and anybody in the bay reads it', async () => {
  keep();
  expect(existsSync(pictureFile(on.shop.dir, hash))).toBe(true);
  expect((await page()).sheetFile).toMatchObject({ name: 'Compound – sheet v3.PDF' });
  on.shop.as('technician');
  const file = await on.shop.read('stock.sheetFile', { itemId: on.shelf.compound });
  expect(file).toMatchObject({ fileName: 'Compound sheet v3.pdf', mime: 'application/pdf' });
  expect(Buffer.from(file.bytes).equals(pdf)).toBe(true);
});

it('puts another in its place, takes it out, and asks for what is none', async () => {
  keep();
  keep(Buffer.concat([pdf, Buffer.from(' v4')]), 'v4.pdf');
  expect((await page()).sheetFile?.name).toBe('v4.pdf');
  on.shop.write('stock.removeSheet', { itemId: on.shelf.compound });
  expect((await page()).sheetFile).toBeNull();
  expect(refusal(() => on.shop.write('stock.removeSheet', { itemId: on.shelf.compound }))).toBe('NOT_FOUND');
  const reply = await on.shop.call('stock.sheetFile', { itemId: on.shelf.compound });
  expect(reply).toMatchObject({ ok: false, error: { code: 'NOT_FOUND' } });
  expect(refusal(() => keep(Buffer.from('MZ a program, whatever it is called'), 'sheet.pdf'))).toBe(
    'SHEET_UNREADABLE',
  );
  expect(refusal(() => keep(Buffer.concat([pdf, Buffer.alloc(10 * 1024 * 1024)])))).toBe('SHEET_TOO_LARGE');
});

it('is in every copy of the shop, and the doctor misses one that is gone or spoiled', async () => {
  keep();
  expect(examine(on.shop.db)).toEqual([]);
  const { missingPictures } = await backup(on.shop.db.raw, on.shop.dir, 'asked', Date.now());
  expect(missingPictures).toBe(0);
  expect(existsSync(pictureFile(backupDir(on.shop.dir), hash))).toBe(true);
  writeFileSync(pictureFile(on.shop.dir, hash), 'something else');
  expect(examine(on.shop.db)).toMatchObject([{ check: 'sheets.whole' }]);
  rmSync(path.join(on.shop.dir, 'pictures'), { recursive: true });
  expect(examine(on.shop.db)).toMatchObject([{ check: 'sheets.whole' }]);
});

it('comes back with the shop, on a computer that has nothing but the copies', async () => {
  keep();
  const { fileName } = await backup(on.shop.db.raw, on.shop.dir, 'asked', Date.now());
  const other = mkdtempSync(path.join(os.tmpdir(), 'rakelight-test-'));
  try {
    cpSync(backupDir(on.shop.dir), backupDir(other), { recursive: true });
    const migrations = readMigrations(path.resolve(import.meta.dirname, '../../../migrations'));
    expect(await restoreFile(other, fileName, Date.now(), migrations)).toMatchObject({ missingPictures: 0 });
    expect(readFileSync(pictureFile(other, hash)).equals(pdf)).toBe(true);
  } finally {
    rmSync(other, { recursive: true, force: true });
  }
});
