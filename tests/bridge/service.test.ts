import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Service, startService } from '#core/host/client.ts';

const root = path.resolve(import.meta.dirname, '../..');
const dataDir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-service-'));
const lines: string[] = [];
let service: Service;

beforeAll(async () => {
  service = await startService({
    dataDir,
    migrationsDir: path.join(root, 'migrations'),
    workerFile: path.join(root, 'core/host/worker.ts'),
    seedFile: path.join(root, 'seed/worker.ts'),
    version: 'test',
    log: (line) => lines.push(line),
  });
});
afterAll(async () => {
  await service.close();
  rmSync(dataDir, { recursive: true, force: true });
});

describe('the core in its workers', () => {
  it('answers a question through the views worker before the shop is set up', async () => {
    expect(await service.call({ name: 'shop.state', input: {} })).toMatchObject({
      ok: true,
      value: { setUp: false },
    });
  });

  it('refuses an unknown action by name', async () => {
    expect(await service.call({ name: 'no.such', input: {} })).toMatchObject({
      ok: false,
      error: { code: 'UNKNOWN_COMMAND' },
    });
  });

  it('refuses a host action to somebody without the role', async () => {
    expect(await service.call({ name: 'host.backupNow', input: {} })).toMatchObject({
      ok: false,
      error: { code: 'NOT_ALLOWED', data: { needs: 'desk', has: 'nobody' } },
    });
  });

  it('tells which folder is open and which SQLite runs', async () => {
    const reply = await service.call({ name: 'host.info', input: {} });
    expect(reply).toMatchObject({ ok: true, value: { dataDir, isDemo: false, version: 'test' } });
    expect((reply as { value: { sqlite: string } }).value.sqlite).toMatch(/^3\.(5[1-9]|[6-9]\d)/);
  });
});
