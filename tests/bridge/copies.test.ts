import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type Service, startService } from '#core/host/client.ts';
import { closeShop, openShop } from '#core/host/openShop.ts';
import type { Reply } from '#core/shared/reply.ts';
import { DIST } from './desktopApp.ts';

const MIGRATIONS = path.join(DIST, 'migrations');
const TOKEN = 'c'.repeat(64);
let dataDir: string;
let service: Service;
let lines: string[];

const open = (firstCopyMs: number, seedFile = ''): Promise<Service> =>
  startService({
    dataDir,
    migrationsDir: MIGRATIONS,
    workerFile: path.join(DIST, 'core/worker.js'),
    seedFile,
    version: 'test',
    log: (line) => lines.push(line),
    firstCopyMs,
  });
const call = (name: string, input: unknown = {}): Promise<Reply> =>
  service.call({ name, input, session: TOKEN });
const codeOf = (reply: Reply): string => (reply.ok ? 'ok' : reply.error.code);

async function setUp(): Promise<void> {
  const shop = { name: 'Shop', country: 'DE', zone: 'Europe/Berlin', currency: 'EUR', locale: 'en' };
  const units = { filmUnit: 'um', volumeUnit: 'ml', lengthUnit: 'm', paper: 'A4' };
  const owner = { name: 'Ada', token: TOKEN };
  expect(await call('shop.setUp', { shop: { ...shop, ...units }, owner })).toMatchObject({ ok: true });
}

beforeEach(() => {
  lines = [];
  dataDir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-copies-'));
});
afterEach(async () => {
  await service.close();
  rmSync(dataDir, { recursive: true, force: true });
});

describe('copies of the shop file', () => {
  it('asked for at two windows at once are both made', async () => {
    service = await open(3_600_000);
    await setUp();
    const both = await Promise.all([call('host.backupNow'), call('host.backupNow')]);
    expect(both.map(codeOf)).toEqual(['ok', 'ok']);
  });

  it('are made daily, also when the clock stood too far ahead once', async () => {
    const dir = path.join(dataDir, 'backups');
    mkdirSync(dir);
    writeFileSync(path.join(dir, '2099-01-01T00-00-00_daily.sqlite'), '');
    service = await open(1);
    await vi.waitFor(() =>
      expect(readdirSync(dir).filter((n) => n.endsWith('_daily.sqlite'))).toHaveLength(2),
    );
  });
});

describe('going back to a copy', () => {
  it('closes the file everywhere first, so that nothing but the file itself is put aside', async () => {
    service = await open(3_600_000);
    await setUp();
    const { value } = (await call('host.backupNow')) as { value: { fileName: string } };
    // the readers have it open from here on
    expect(codeOf(await call('access.people'))).toBe('ok');
    const restored = await call('host.restore', { fileName: value.fileName });
    expect(codeOf(restored)).toBe('ok');
    const { asideDir } = (restored as { value: { asideDir: string } }).value;
    expect(readdirSync(asideDir)).toEqual(['rakelight.sqlite']);
    expect(codeOf(await call('access.people'))).toBe('ok');
  });

  it('answers other windows meanwhile in words that help, and takes nothing that would be lost', async () => {
    service = await open(3_600_000);
    await setUp();
    const { value } = (await call('host.backupNow')) as { value: { fileName: string } };
    const restore = call('host.restore', { fileName: value.fileName });
    const replies: string[] = [];
    let done = false;
    void restore.then(() => {
      done = true;
    });
    while (!done) {
      const both = await Promise.all([
        call('access.addPerson', { name: `Person ${replies.length}`, role: 'desk' }),
        call('access.people'),
      ]);
      replies.push(...both.map(codeOf));
      await setTimeout(2);
    }
    expect(codeOf(await restore)).toBe('ok');
    expect(
      replies.filter((code) => code !== 'ok' && code !== 'WORKER_GONE' && code !== 'SESSION_ENDED'),
    ).toEqual([]);
    expect(lines.filter((line) => line.includes('Error'))).toEqual([]);
  });
});

describe('the way to the demo shop and back', () => {
  const asNobody = (name: string): Promise<Reply> => service.call({ name, input: {} });
  beforeEach(async () => {
    closeShop(await openShop(path.join(dataDir, 'demo'), MIGRATIONS, 1));
    service = await open(3_600_000);
  });

  it('is everybody’s while the folder has no shop', async () => {
    expect(codeOf(await asNobody('host.openDemo'))).toBe('ok');
    await setUp();
    expect(codeOf(await asNobody('host.leaveDemo'))).toBe('ok');
    expect(await asNobody('host.info')).toMatchObject({ value: { isDemo: false } });
  });

  it('is the owner’s once there is one, in either shop', async () => {
    await setUp();
    expect(codeOf(await asNobody('host.openDemo'))).toBe('NOT_ALLOWED');
    expect(codeOf(await call('host.openDemo'))).toBe('ok');
    await setUp();
    expect(codeOf(await asNobody('host.leaveDemo'))).toBe('NOT_ALLOWED');
    expect(codeOf(await call('host.leaveDemo'))).toBe('ok');
  });
});

describe('a demo shop that cannot be built again', () => {
  it('is opened as it was, so that the program goes on', async () => {
    closeShop(await openShop(path.join(dataDir, 'demo'), MIGRATIONS, 1));
    service = await open(3_600_000, path.join(dataDir, 'no-builder.js'));
    expect(codeOf(await call('host.openDemo'))).toBe('ok');
    await expect(call('host.openDemo', { rebuild: true })).rejects.toThrow();
    expect(await call('host.info')).toMatchObject({ value: { isDemo: true } });
    expect(codeOf(await call('shop.state'))).toBe('ok');
  });
});
