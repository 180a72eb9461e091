import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { startService } from '#core/host/client.ts';
import { openTestShop } from '../helpers/shop.ts';
import { type BenchRow, ms, paired, timed } from './measure.ts';

const root = path.resolve(import.meta.dirname, '../..');

/** The door against the same statements straight through better-sqlite3, in one run. */
export async function rows(): Promise<readonly BenchRow[]> {
  return [...(await throughDispatch()), ...(await throughWorker())];
}

async function throughDispatch(): Promise<readonly BenchRow[]> {
  const shop = openTestShop();
  try {
    const { id: customerId } = shop.write('people.addCustomer', { name: 'Marit Vane' });
    const insert = shop.db.raw.prepare(
      `INSERT INTO customer (id, kind, name, phone, phone_key, email, address, country, tax_number, locale, note, created_ms)
       VALUES (?, 'person', 'Dev Ostler', '', '', '', '', '', '', '', '', 1)`,
    );
    const page = shop.db.raw.prepare('SELECT * FROM customer WHERE id = ?');
    const vehicles = shop.db.raw.prepare('SELECT * FROM vehicle WHERE customer_id = ?');
    const write = await paired(
      400,
      () => shop.write('people.addCustomer', { name: 'Celia Farrow' }),
      (i) => shop.db.raw.transaction(() => insert.run(`raw${i}`))(),
    );
    const read = await paired(
      2000,
      () => shop.read('people.findVehicles', { text: 'nothing like it' }),
      () => [page.get(customerId), vehicles.all(customerId)],
    );
    return [
      {
        what: 'a write through dispatch (add a customer)',
        measured: ms(write.ours),
        beside: `raw ${ms(write.other)}, ratio ${write.ratio.toFixed(2)}`,
        asked: '≤ 2 ×',
      },
      {
        what: 'a read through dispatch (find vehicles)',
        measured: ms(read.ours),
        beside: `raw ${ms(read.other)}, ratio ${read.ratio.toFixed(2)}`,
        asked: '≤ 2 ×',
      },
    ];
  } finally {
    shop.close();
  }
}

async function throughWorker(): Promise<readonly BenchRow[]> {
  const dataDir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-bench-'));
  const service = await startService({
    dataDir,
    migrationsDir: path.join(root, 'migrations'),
    workerFile: path.join(root, 'core/host/worker.ts'),
    seedFile: '',
    version: 'bench',
    log: () => {},
  });
  try {
    const call = await timed(2000, () =>
      service.call({ name: 'people.checkVin', input: { vin: '1M8GDM9AXKP042788' } }),
    );
    return [
      {
        what: 'a question through the worker and back',
        measured: `${ms(call.p50)} (p95 ${ms(call.p95)})`,
        asked: '≤ 0.5 ms more at the median',
      },
    ];
  } finally {
    await service.close();
    rmSync(dataDir, { recursive: true, force: true });
  }
}
