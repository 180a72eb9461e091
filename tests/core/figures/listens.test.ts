import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { migrate } from '#core/db/migrate.ts';
import { readMigrations } from '#core/db/migrationFiles.ts';
import { openForWriting } from '#core/db/open.ts';
import { type BatchDoor, batchDoorOver } from '#core/host/batchDoor.ts';
import { catalogue, type EntryName } from '#core/shared/catalogue.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { type Tables, tracedTables } from '#tests/helpers/tracedTables.ts';
import { buildDemo, demoNow, SEED } from '../../../seed/build.ts';

const HISTORY_DAYS = 8;
const DAYS = { fromDay: '2026-11-10', toDay: '2026-11-25' };
/** Every write leaves its line there; of it the figures read only the first, which stays. */
const JOURNAL = 'journal';
/** A copy of what the figures read, made by the writer itself; none is made here, and an answer is the same without it. */
const COPY = 'kept_day';
/** What these few days did not come to, and a command that writes it. */
const SELDOM: Readonly<Record<string, EntryName>> = {
  stage_gap: 'bays.setGap',
  dust_pair: 'bays.addDust',
  billed_job: 'billing.draftCollective',
  deduction: 'billing.issueInvoice',
  purchase_order: 'stock.makeOrders',
  purchase_order_line: 'stock.makeOrders',
  order_later: 'stock.notToday',
  delivery: 'stock.receive',
  delivery_line: 'stock.receive',
  draw_without_item: 'bookings.finishStage',
  draw_settled: 'stock.giveUses',
  stage_panel: 'bookings.panelDone',
  stage_note: 'bookings.noteStage',
  job_override: 'bookings.startStage',
  stage_share: 'bookings.stopHalfWay',
};
type Any = (name: string, input: unknown) => unknown;

const dir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-listens-'));
const db = openForWriting(path.join(dir, 'rakelight.sqlite'));
/** Tables that each write opened for writing, and each figure for reading. */
const wrote = new Map<string, Set<string>>();
const reads = new Map<string, ReadonlySet<string>>();

/** The demo shop's first days with what seldom happens, each command watched; then every figure asked. */
beforeAll(() => {
  migrate(db, readMigrations(path.resolve(import.meta.dirname, '../../../migrations')), 0);
  const traced = tracedTables(db.raw);
  const door = watchedDoor(batchDoorOver(db, SEED, 0), traced);
  const nowMs = demoNow('2026-11-25' as LocalDay);
  const plan = { nowMs, historyDays: HISTORY_DAYS };
  door.batch(() => buildDemo(door, plan, () => {}));
  const people = door.read('access.people', {});
  const owner = people.find((p) => p.role === 'owner');
  if (owner) door.as({ id: owner.id, name: owner.name, role: 'owner' });
  door.at(nowMs);
  seldom(door);
  const { bays } = door.read('bays.setup', {});
  const cell = { ...DAYS, bayId: bays[0]?.bayId, personId: null };
  const inputs = {
    ...{ 'figures.utilization': { ...DAYS, by: 'day' }, 'figures.cellJobs': cell, 'figures.monday': {} },
    ...{ 'figures.honesty': DAYS, 'figures.margin': DAYS, 'figures.money': DAYS, 'figures.whatIfStart': {} },
  };
  for (const [name, input] of Object.entries(inputs))
    reads.set(name, traced(() => (door.read as Any)(name, input)).read);
}, 60_000);
afterAll(() => {
  db.raw.close();
  rmSync(dir, { recursive: true, force: true });
});

function watchedDoor(door: BatchDoor, traced: (work: () => unknown) => Tables): BatchDoor {
  const write: Any = (name, input) => {
    let value: unknown;
    const { written } = traced(() => {
      value = (door.write as Any)(name, input);
    });
    wrote.set(name, new Set([...(wrote.get(name) ?? []), ...written]));
    return value;
  };
  return { ...door, write: write as BatchDoor['write'] };
}

function row(sql: string): Record<string, never> {
  return db.raw.prepare(sql).get() as Record<string, never>;
}

function seldom(door: BatchDoor): void {
  const write = door.write as Any;
  const person = row("SELECT id AS personId, revision FROM person WHERE role = 'technician'");
  write('access.changePerson', { ...person, name: 'Orla Fenwright' });
  write('access.addPerson', { name: 'Tamsin Oakhurst', role: 'technician' });
  write('people.changeCustomer', {
    ...row('SELECT id AS customerId, revision, name, kind FROM customer'),
    name: 'Orrin Sallow',
  });
  write('people.changeVehicle', {
    ...row('SELECT id AS vehicleId, revision, body FROM vehicle'),
    makeModel: 'Velloy Merrin',
  });
  write('shop.update', { ...row('SELECT revision FROM shop'), name: 'The other name' });
  write('bays.changeBay', { ...row('SELECT id AS bayId, revision FROM bay'), name: 'Lamp bay' });
  write('stock.changeItem', {
    ...row('SELECT id AS itemId, revision FROM stock_item'),
    changes: { name: 'Another polish' },
  });
  write('stock.changeSupplier', {
    ...row('SELECT id AS supplierId, revision FROM supplier'),
    changes: { name: 'Another supplier' },
  });
}

it('of every table that a figure reads, a command that writes it was seen or is named', () => {
  expect(wrote.size).toBeGreaterThan(50);
  const read = new Set([...reads.values()].flatMap((tables) => [...tables]));
  const seen = new Set([...wrote.values()].flatMap((tables) => [...tables]));
  expect([...read].filter((t) => !seen.has(t) && t !== COPY).sort()).toEqual(Object.keys(SELDOM).sort());
});

it.each(
  Object.keys(catalogue).filter((n) => n.startsWith('figures.') && catalogue[n as EntryName].kind === 'read'),
)('%s is asked again after every command that writes what it reads', (name) => {
  const read = reads.get(name);
  const listens: readonly string[] = catalogue[name as EntryName].touches;
  expect(read?.size).toBeGreaterThan(0);
  const named = Object.entries(SELDOM).map(([table, command]) => [command, new Set([table])] as const);
  const stale = [...wrote, ...named].flatMap(([command, tables]) => {
    const common = [...tables].filter((t) => t !== JOURNAL && read?.has(t));
    const told = catalogue[command as EntryName].touches.some((topic) => listens.includes(topic));
    return common.length > 0 && !told ? [`${command}: ${common.join(', ')}`] : [];
  });
  expect(stale).toEqual([]);
});
