import path from 'node:path';
import { startService } from '#core/host/client.ts';
import { type BusyShop, openBusyShop } from '../core/door/busyShop.ts';
import { type BenchRow, ms, type Pair, paired } from './measure.ts';
import { recordedReads } from './recorded.ts';

const root = path.resolve(import.meta.dirname, '../..');
const ASKED = '≤ 2 ×';

/** The door against the same statements straight through better-sqlite3, in one run over one file. */
export async function rows(): Promise<readonly BenchRow[]> {
  const shop = await openBusyShop(60);
  try {
    shop.as('desk');
    return [...(await writes(shop)), ...(await reads(shop)), await throughWorker(shop)];
  } finally {
    shop.close();
  }
}

/**
 * Both sides insert the same row into the same table, each in an immediate transaction of its own with a durable
 * commit. Ours also checks role and input and adds a journal row; the other side has none of that.
 */
async function writes(shop: BusyShop): Promise<readonly BenchRow[]> {
  const raw = shop.db.raw;
  const insert = raw.prepare(
    `INSERT INTO customer (id, kind, name, name_key, phone, phone_key, email, address, country, tax_number, terms_days, locale, note, created_ms)
     VALUES (?, 'person', 'Celia Farrow', 'celia farrow', '', '', '', '', '', '', 0, '', '', ?)`,
  );
  const alone = raw.transaction((i: number) => insert.run(`raw${String(i).padStart(17, '0')}`, shop.nowMs));
  const pair = await paired(
    600,
    () => shop.call('people.addCustomer', { name: 'Celia Farrow' }),
    (i) => alone.immediate(i + 1_000_000),
  );
  const journal = raw.prepare(
    "INSERT INTO journal (at_ms, person_id, command, subjects, fields) VALUES (?, NULL, 'bench', '[]', '[]')",
  );
  const both = raw.transaction((i: number) => {
    insert.run(`two${String(i).padStart(17, '0')}`, shop.nowMs);
    journal.run(shop.nowMs);
  });
  const withJournal = await paired(
    600,
    () => shop.call('people.addCustomer', { name: 'Celia Farrow' }),
    (i) => both.immediate(i + 1_000_000),
  );
  return [
    row('write through dispatch, its journal row included: add a customer', 'insert alone', pair),
    row('the same', 'insert and journal row', withJournal),
  ];
}

/** What the handler really asked the database is recorded once, and then asked again without the door. */
async function reads(shop: BusyShop): Promise<readonly BenchRow[]> {
  const customerId = shop.db.raw.prepare('SELECT customer_id FROM job ORDER BY number LIMIT 1').pluck().get();
  const found: BenchRow[] = [];
  for (const [what, name, input] of [
    ['read through dispatch: a customer’s page', 'people.customerPage', { customerId }],
    ['read through dispatch: sixty open jobs', 'bookings.jobs', {}],
    ['read through dispatch: vehicles found by a text', 'people.findVehicles', { text: 'merr' }],
  ] as const) {
    const { again, statements } = await recordedReads(shop.db.raw, () => shop.call(name, input));
    const pair = await paired(400, () => shop.call(name, input), again);
    found.push(row(what, `the same ${statements === 1 ? 'statement' : `${statements} statements`}`, pair));
  }
  return found;
}

/** The same question asked in this thread and through the host's worker, of the same file. */
async function throughWorker(shop: BusyShop): Promise<BenchRow> {
  const dataDir = path.dirname(shop.db.raw.name);
  const service = await startService({
    dataDir,
    migrationsDir: path.join(root, 'migrations'),
    workerFile: path.join(root, 'core/host/worker.ts'),
    seedFile: '',
    version: 'bench',
    log: () => {},
  });
  try {
    const pair = await paired(
      1500,
      () => service.call({ name: 'shop.state', input: {} }),
      () => shop.call('shop.state', {}),
    );
    return {
      what: 'question through the worker and back (how the shop writes things)',
      measured: ms(pair.ours),
      beside: `${ms(pair.other)} in this thread: ${ms(pair.ours - pair.other)} more at the median`,
      asked: '≤ 0.5 ms more',
    };
  } finally {
    await service.close();
  }
}

function row(what: string, other: string, pair: Pair): BenchRow {
  return {
    what,
    measured: ms(pair.ours),
    beside: `${other} ${ms(pair.other)}, ratio ${pair.ratio.toFixed(2)}`,
    asked: ASKED,
  };
}
