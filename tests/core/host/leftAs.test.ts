import {
  closeSync,
  mkdtempSync,
  openSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeSync,
} from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { isAsLeft } from '#core/db/leftAs.ts';
import { type Service, startService } from '#core/host/client.ts';
import { closeShop, openShop } from '#core/host/openShop.ts';

const root = path.resolve(import.meta.dirname, '../../..');
const migrations = path.join(root, 'migrations');
let dir: string;
let file: string;

beforeEach(() => {
  dir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-test-'));
  file = path.join(dir, 'rakelight.sqlite');
});
afterEach(() => rmSync(dir, { recursive: true, force: true }));

async function shopLeftProperly(): Promise<void> {
  const db = await openShop(dir, migrations, 1);
  db.raw.exec("INSERT INTO sequence (name, next) VALUES ('a mark', 1)");
  closeShop(db);
}

/** Spoils a page of a table, and the file's time only where asked: a disk does it without a trace. */
function spoil(traceless: boolean): void {
  const seconds = statSync(file).mtimeMs / 1000;
  const at = readFileSync(file).indexOf('a mark');
  const handle = openSync(file, 'r+');
  writeSync(handle, Buffer.alloc(4096, 0x5a), 0, 4096, at - (at % 4096));
  closeSync(handle);
  utimesSync(file, seconds, traceless ? seconds : seconds + 1);
}

describe('a shop file that was closed', () => {
  it('is known by how it was left, until it is opened', async () => {
    await shopLeftProperly();
    expect(isAsLeft(file)).toBe(true);
    const db = await openShop(dir, migrations, 2);
    expect(isAsLeft(file)).toBe(false);
    closeShop(db);
    expect(isAsLeft(file)).toBe(true);
  });

  it('is read whole when it was changed since, and refused when it is spoiled', async () => {
    await shopLeftProperly();
    spoil(false);
    await expect(openShop(dir, migrations, 2)).rejects.toThrow();
  });

  it('is read whole after a program that did not close it', async () => {
    const db = await openShop(dir, migrations, 1);
    db.raw.exec("INSERT INTO sequence (name, next) VALUES ('a mark', 1)");
    db.raw.close();
    expect(isAsLeft(file)).toBe(false);
    spoil(true);
    await expect(openShop(dir, migrations, 2)).rejects.toThrow();
  });
});

describe('a shop file that spoils on the disk without a trace', () => {
  let service: Service | undefined;
  afterEach(() => service?.close());

  it('is noticed by the day’s copy, which ends all writing', async () => {
    await shopLeftProperly();
    spoil(true);
    const log: string[] = [];
    service = await startService({
      dataDir: dir,
      migrationsDir: migrations,
      workerFile: path.join(root, 'core/host/worker.ts'),
      seedFile: '',
      version: 'test',
      log: (line) => log.push(line),
      firstCopyMs: 1,
    });
    const write = { name: 'access.signOut', input: { token: 'a'.repeat(64) } };
    const refused = { ok: false, error: { code: 'STORAGE', data: { kind: 'damaged' } } };
    await vi.waitFor(async () => expect(await service?.call(write)).toEqual(refused), 5000);
    expect(log.join()).toContain('file action failed');
    expect(await service.call({ name: 'shop.state', input: {} })).toMatchObject({ ok: true });
  });
});
