import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { migrate } from '#core/db/migrate.ts';
import { readMigrations } from '#core/db/migrationFiles.ts';
import { openForWriting } from '#core/db/open.ts';
import type { WriteDb } from '#core/db/types.ts';
import { seeded } from '#core/shared/random.ts';
import { localDayOf } from '#core/shared/time.ts';
import type { EpochMs } from '#core/shared/units.ts';
import { MATERIALS } from '#core/shared/vocabulary.ts';
import { project } from '#core/stock/rules/projection.ts';
import { stockBoard } from '#core/views/stockBoard.ts';
import { itemRows, lookForward } from '#core/views/stockOutlook.ts';
import { stockValueAt } from '#core/views/stockValue.ts';
import { type BenchRow, ms, timed } from './measure.ts';

const NOW = Date.parse('2026-11-25T09:00:00Z') as EpochMs;
const DAY = 86_400_000;
const ITEMS = 500;
const MOVEMENTS = 1_000_000;

/** Stock: the way forward of 500 items, and a ledger of a million lines. */
export async function rows(): Promise<readonly BenchRow[]> {
  const dir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-bench-'));
  const db = openForWriting(path.join(dir, 'stock.sqlite'));
  try {
    migrate(db, readMigrations(path.resolve(import.meta.dirname, '../../migrations')), NOW);
    db.raw.transaction(() => fill(db))();
    return await measure(db);
  } finally {
    db.raw.close();
    rmSync(dir, { recursive: true, force: true });
  }
}

async function measure(db: WriteDb): Promise<readonly BenchRow[]> {
  const items = itemRows(db, false);
  const start = performance.now();
  lookForward(db, NOW, 120, items);
  const first = performance.now() - start;
  const next = performance.now();
  lookForward(db, (NOW + DAY) as EpochMs, 120, items);
  const onNextDay = performance.now() - next;
  const outlooks = [...lookForward(db, NOW, 120, items).items.values()];
  const pure = await timed(30, () => {
    for (const of of outlooks) project({ onHand: of.item.onHand, ...of });
  });
  const forward = await timed(10, () => lookForward(db, NOW, 120, itemRows(db, false)));
  const board = await timed(5, () => stockBoard({ db, now: NOW, actor: null }, 42));
  const level = db.raw.prepare('SELECT item_id, qty, value_minor FROM stock_level');
  const onHand = await timed(50, () => level.all());
  const summed = db.raw.prepare('SELECT item_id, sum(qty) AS qty FROM stock_movement GROUP BY item_id');
  const bySum = await timed(3, () => summed.all());
  const day = localDayOf(NOW - 200 * DAY, 'Europe/Berlin');
  const value = await timed(5, () => stockValueAt({ db, now: NOW, actor: null }, day));
  const exact =
    JSON.stringify(summed.all()) ===
    JSON.stringify(db.raw.prepare('SELECT item_id, qty FROM stock_level ORDER BY item_id').all());
  return [
    { what: 'projection of 500 items × 120 days, rules only', measured: ms(pure.p50) },
    {
      what: 'the same read from the file, 400 booked jobs',
      measured: ms(forward.p50),
      beside: `${ms(onNextDay)} on the next day, ${ms(first)} the first time after a start`,
      asked: '< 100 ms',
    },
    { what: 'whole Stock board of 500 items', measured: ms(board.p50) },
    {
      what: 'on hand of all items, 1,000,000 movements',
      measured: ms(onHand.p50),
      beside: `${ms(bySum.p50)} by summing, ${exact ? 'equal' : 'NOT EQUAL'}`,
      asked: '< 5 ms',
    },
    { what: 'value at a past date, 1,000,000 movements', measured: ms(value.p50), asked: '< 300 ms' },
  ];
}

const id = (n: number): string => String(n).padStart(20, '0');

function fill(db: WriteDb): void {
  const random = seeded(5);
  const pick = (n: number): number => Math.floor(random() * n);
  const run = (sql: string): ((...values: unknown[]) => void) => {
    const statement = db.raw.prepare(sql);
    return (...values) => void statement.run(...values);
  };
  run(`INSERT INTO shop (id, name, address, phone, email, tax_number, country, zone, currency, locale, film_unit, volume_unit, length_unit, paper, settings, is_demo)
    VALUES (1, 'Bench', '', '', '', '', 'DE', 'Europe/Berlin', 'EUR', 'en', 'um', 'ml', 'm', 'A4', '{}', 0)`)();
  const item =
    run(`INSERT INTO stock_item (id, name, material, base_unit, pack_size, pack_word, place, hazards, sheet, barcode, reusable, preference)
    VALUES (?, ?, ?, 'ul', 1000000, 'bottle', '', '', '', '', 0, ?)`);
  const sells = run(
    `INSERT INTO supplier_item (supplier_id, item_id, code, pack_size, price_minor, breaks, preferred) VALUES (?, ?, '', 1000000, 3000, '[]', 1)`,
  );
  run(
    `INSERT INTO supplier (id, name, email, lead_days, open_weekdays, closed_days, min_order_minor) VALUES ('${id(1)}', 'Kestle & Rowe', '', 2, '[1,2,3,4,5]', '[]', 0)`,
  )();
  for (let i = 0; i < ITEMS; i += 1) {
    item(id(1000 + i), `Item ${i}`, MATERIALS[i % MATERIALS.length], Math.floor(i / MATERIALS.length));
    sells(id(1), id(1000 + i));
  }
  const move = run(
    `INSERT INTO stock_movement (item_id, qty, value_minor, reason, at_ms, note) VALUES (?, ?, ?, ?, ?, '')`,
  );
  for (let k = 0; k < MOVEMENTS; k += 1) {
    const out = k % 10 !== 0;
    const at = NOW - 730 * DAY + Math.floor((k / MOVEMENTS) * 730 * DAY);
    move(id(1000 + pick(ITEMS)), out ? -10_000 : 95_000, out ? -30 : 285, out ? 'draw' : 'delivery', at);
  }
  jobs(run, pick);
}

function jobs(run: (sql: string) => (...values: unknown[]) => void, pick: (n: number) => number): void {
  run(`INSERT INTO customer (id, kind, name, phone, phone_key, email, address, country, tax_number, locale, note, created_ms)
    VALUES ('${id(2)}', 'person', 'Marit Vane', '', '', '', '', '', '', '', '', 0)`)();
  run(`INSERT INTO vehicle (id, customer_id, body, make_model, colour, plate, plate_key, vin, hardness, note, created_ms)
    VALUES ('${id(3)}', '${id(2)}', 'saloon', 'Velloy Merrin', '', '', '', '', 'medium', '', 0)`)();
  const job =
    run(`INSERT INTO job (id, number, customer_id, vehicle_id, purpose, state, wish, drop_off_min, created_ms)
    VALUES (?, ?, '${id(2)}', '${id(3)}', 'correction', 'booked', '', ?, ?)`);
  const stage =
    run(`INSERT INTO job_stage (id, job_id, seq, kind, state, panels, estimated_min, p20_min, p50_min, p80_min, p95_min, mu, sigma, dwell_min, bay_kinds, skill, crew, splittable, note)
    VALUES (?, ?, ?, 'cut', 'planned', '[]', 60, 50, 60, 70, 80, 4, 0.2, 0, '["correction"]', 'correction', 1, 1, '')`);
  const need = run('INSERT OR IGNORE INTO job_material (stage_id, material, amount) VALUES (?, ?, ?)');
  for (let j = 0; j < 400; j += 1) {
    const jobId = id(100_000 + j);
    job(jobId, j + 1, Math.floor((NOW + pick(110) * DAY) / 60_000), NOW - pick(20) * DAY);
    for (let s = 0; s < 8; s += 1) {
      const stageId = id(1_000_000 + j * 10 + s);
      stage(stageId, jobId, s);
      for (let m = 0; m < 2; m += 1) need(stageId, MATERIALS[pick(MATERIALS.length)], 1000 + pick(50_000));
    }
  }
}
