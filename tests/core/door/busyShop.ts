import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Actor, TaskCtx } from '#core/context.ts';
import { contract } from '#core/contract.ts';
import { DATABASE_FILE } from '#core/db/backup.ts';
import { openForWriting } from '#core/db/open.ts';
import type { WriteDb } from '#core/db/types.ts';
import { type Door, dispatch, dispatchWrite } from '#core/dispatch.ts';
import { openBatchDoor } from '#core/host/batchDoor.ts';
import { catalogue, type EntryName } from '#core/shared/catalogue.ts';
import { makeId } from '#core/shared/ids.ts';
import { seeded } from '#core/shared/random.ts';
import type { Reply } from '#core/shared/reply.ts';
import type { Role } from '#core/shared/roles.ts';
import type { EpochMs, LocalDay } from '#core/shared/units.ts';
import { buildDemo, demoNow, SEED } from '../../../seed/build.ts';

/** A shop in the middle of its work, with records in every table that work fills, behind the real door. */
export type BusyShop = {
  readonly db: WriteDb;
  readonly nowMs: number;
  readonly log: string[];
  /** Acts as somebody who holds this role in the shop; null = nobody. */
  as(role: Role | null): void;
  call(name: string, input: unknown): Promise<Reply>;
  /** The same, undone at once: what it did, nothing keeps. */
  tried(name: string, input: unknown): Promise<Tried>;
  close(): void;
};
export type Tried = {
  readonly reply: Reply;
  /** The rows of some table are not what they were before. */
  readonly changed: boolean;
};

const DAY = '2026-11-25' as LocalDay;
const quiet: TaskCtx = { progress: () => {}, cancelled: () => false };

/** Builds some days of the demo shop's life and opens them. */
export async function openBusyShop(historyDays = 12): Promise<BusyShop> {
  const dir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-door-'));
  const batch = await openBatchDoor(dir, path.resolve(import.meta.dirname, '../../../migrations'), SEED, 0);
  const nowMs = demoNow(DAY);
  const plan = { nowMs, day: DAY, historyDays, callsPerWeek: 12.5 };
  batch.batch(() => buildDemo(batch, plan, () => {}));
  batch.close();
  const db = openForWriting(path.join(dir, DATABASE_FILE));
  const random = seeded(7);
  const log: string[] = [];
  let actor: Actor | null = null;
  let kept: string | undefined;
  const whole = (): string => {
    kept ??= fingerprint(db);
    return kept;
  };
  const door: Door = {
    db,
    catalogue,
    handlers: contract,
    now: () => nowMs as EpochMs,
    newId: () => makeId(nowMs, () => Math.floor(random() * 32)),
    actorOf: () => actor,
    log: (line) => log.push(line),
    compute: async (name, model, task) => solverOf(name).run(model, task),
  };
  const call = (name: string, input: unknown): Promise<Reply> =>
    catalogue[name as EntryName]?.kind === 'write'
      ? Promise.resolve(dispatchWrite(door, { name, input }))
      : dispatch(door, { name, input }, quiet);
  return {
    db,
    nowMs,
    log,
    as: (role) => {
      actor = role === null ? null : someone(db, role);
    },
    call,
    tried: (name, input) => undone(db, whole, () => call(name, input)),
    close: () => {
      db.raw.close();
      rmSync(dir, { recursive: true, force: true });
    },
  };
}

function solverOf(name: string): { run: (model: unknown, task: TaskCtx) => unknown } {
  return contract[name as keyof typeof contract] as never;
}

function someone(db: WriteDb, role: Role): Actor {
  const row = db.raw
    .prepare('SELECT id AS personId, name, role FROM person WHERE role = ? LIMIT 1')
    .get(role);
  if (!row) throw new Error(`the demo shop has no ${role}`);
  return row as Actor;
}

/**
 * Looks at what was done from inside a transaction that is then rolled back. The rows are only compared when
 * SQLite counts a write since; a write that was taken back counts too, so the count alone would not do.
 */
async function undone(db: WriteDb, before: () => string, work: () => Promise<Reply>): Promise<Tried> {
  const unchanged = before();
  const count = db.raw.prepare('SELECT total_changes()').pluck();
  db.raw.exec('BEGIN IMMEDIATE');
  try {
    const at = count.get();
    const reply = await work();
    return { reply, changed: count.get() !== at && fingerprint(db) !== unchanged };
  } finally {
    db.raw.exec('ROLLBACK');
  }
}

/** All rows of all tables in one hash. */
export function fingerprint(db: WriteDb): string {
  const hash = createHash('sha1');
  for (const table of tablesOf(db))
    hash.update(JSON.stringify(db.raw.prepare(`SELECT * FROM "${table}"`).raw().all()));
  return hash.digest('hex');
}

export function tablesOf(db: WriteDb): readonly string[] {
  return db.raw
    .prepare("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name")
    .pluck()
    .all() as string[];
}
