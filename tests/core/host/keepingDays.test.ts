import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { openForReading } from '#core/db/open.ts';
import { startService } from '#core/host/client.ts';
import { openTestShop } from '../../helpers/shop.ts';
import { keptShop } from '../figures/keptShop.ts';

const root = path.resolve(import.meta.dirname, '../../..');
describe('the writer of a shop that is left alone', () => {
  const dir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-idle-'));
  afterEach(() => rmSync(dir, { recursive: true, force: true }));

  it('keeps what past days came to', async () => {
    const shop = openTestShop();
    shop.breaksPlans();
    keptShop(shop);
    const file = path.join(dir, 'rakelight.sqlite');
    shop.db.raw.exec(`VACUUM INTO '${file}'`);
    shop.close();
    const service = await startService({
      dataDir: dir,
      migrationsDir: path.join(root, 'migrations'),
      workerFile: path.join(root, 'core/host/worker.ts'),
      seedFile: '',
      version: 'test',
      log: () => {},
      quietMs: 1,
    });
    try {
      const { raw } = openForReading(file);
      const kept = raw
        .prepare("SELECT count(*) FROM kept_day WHERE day BETWEEN '2026-11-01' AND '2026-11-24'")
        .pluck();
      await vi.waitFor(() => expect(kept.get()).toBe(24), 10_000);
      raw.close();
    } finally {
      await service.close();
    }
  });
});
