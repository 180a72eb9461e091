import { randomInt } from 'node:crypto';
import path from 'node:path';
import { type MessagePort, parentPort, workerData } from 'node:worker_threads';
import { actorOf } from '../access/session.ts';
import type { TaskCtx } from '../context.ts';
import { spareWork } from '../contract/spare.ts';
import { contract } from '../contract.ts';
import { backup, DATABASE_FILE, listBackups } from '../db/backup.ts';
import { storageKindOf } from '../db/faults.ts';
import { readMigrations } from '../db/migrationFiles.ts';
import { openForReading } from '../db/open.ts';
import { restoreFile } from '../db/restore.ts';
import type { ReadDb, WriteDb } from '../db/types.ts';
import { type Door, dispatch, dispatchAllowed } from '../dispatch.ts';
import { keepDays } from '../figures/commands/keepDays.ts';
import { forgetOld } from '../journal.ts';
import { catalogue } from '../shared/catalogue.ts';
import { invariant, type PlainError } from '../shared/errors.ts';
import { makeId } from '../shared/ids.ts';
import type { Reply } from '../shared/reply.ts';
import { shopIfSetUp } from '../views/shop.ts';
import { clockFrom } from './clock.ts';
import { computeTask } from './compute.ts';
import { type About, type FromWorker, GONE, type ToWorker, type WorkerStart } from './messages.ts';
import { closeShop, openShop } from './openShop.ts';
import { inSpareTime, type SpareTime } from './spareTime.ts';

invariant(parentPort, 'the worker must be started by the host');
const port: MessagePort = parentPort;
const start = workerData as WorkerStart;

function say(message: FromWorker, transfer: readonly ArrayBuffer[] = []): void {
  port.postMessage(message, [...transfer]);
}

const clock = clockFrom(process.env['RAKELIGHT_CLOCK']);

function newId(): string {
  return makeId(clock(), () => randomInt(32));
}

/** A door over `db`. Tasks end here with their gathered model: another worker computes them. */
function doorOver(db: ReadDb, id: number): Door {
  return {
    db,
    catalogue,
    handlers: contract,
    now: clock,
    newId,
    actorOf,
    log: (line) => say({ op: 'log', line }),
    compute: async (name, model) => {
      say({ op: 'gathered', id, name, model });
      return HANDED_ON;
    },
  };
}
const HANDED_ON = Symbol('handed on');
const noTask: TaskCtx = { progress: () => {}, cancelled: () => false };

async function answer(db: ReadDb, message: ToWorker): Promise<void> {
  if (message.op === 'call') {
    const reply = await dispatch(doorOver(db, message.id), message.call, noTask);
    if (reply.ok && reply.value === HANDED_ON) return;
    say({ op: 'reply', id: message.id, reply }, buffersOf(reply));
  } else if (message.op === 'allowed') {
    say({ op: 'reply', id: message.id, reply: dispatchAllowed(doorOver(db, message.id), message.call) });
  } else if (message.op === 'about') {
    say({ op: 'about', id: message.id, about: aboutUs(db) });
  } else if (message.op === 'backups') {
    say({ op: 'copies', id: message.id, copies: listBackups(start.dataDir) });
  } else if (message.op === 'backup') {
    const made = await backup(db.raw, start.dataDir, message.reason, clock());
    say({ op: 'backedUp', id: message.id, backup: made });
    // Only once the day's copy is safe.
    if (message.reason === 'daily') forgetOld(db as WriteDb, clock());
  } else if (message.op === 'restore') {
    await restore(db, message.id, message.fileName);
  }
}

function aboutUs(db: ReadDb): About {
  return {
    sqlite: String(db.raw.prepare('SELECT sqlite_version()').pluck().get()),
    kinds: Object.fromEntries(Object.entries(catalogue).map(([name, { kind }]) => [name, kind])),
    isSetUp: shopIfSetUp(db) !== null,
  };
}

/** The present state is copied too before it is put aside: a wrong restore can be taken back. Nobody else has the file open. */
async function restore(db: ReadDb, id: number, fileName: string): Promise<void> {
  await backup(db.raw, start.dataDir, 'restore', clock());
  db.raw.close();
  const migrations = readMigrations(start.migrationsDir);
  say({ op: 'restored', id, restored: await restoreFile(start.dataDir, fileName, clock(), migrations) });
}

let spare: SpareTime | null = null;

/** Whatever the disk does ends as an answer. Nothing more is written to a file that does not read cleanly. */
async function orFault(id: number, work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (error) {
    const reference = `F${id}`;
    say({ op: 'log', line: `${reference} file action failed: ${String(error)}` });
    const kind = storageKindOf(error);
    if (kind === 'damaged') spare?.stop();
    const plain: PlainError = kind
      ? { code: 'STORAGE', data: { kind } }
      : { code: 'INTERNAL', data: { reference } };
    say({ op: 'reply', id, reply: { ok: false, error: plain } });
  }
}

/** Document bytes change hands without a copy. */
function buffersOf(reply: Reply): readonly ArrayBuffer[] {
  const value = reply.ok ? reply.value : null;
  if (typeof value !== 'object' || value === null || !('bytes' in value)) return [];
  const { bytes } = value;
  const owns =
    bytes instanceof Uint8Array &&
    bytes.buffer instanceof ArrayBuffer &&
    bytes.byteLength === bytes.buffer.byteLength;
  return owns ? [bytes.buffer as ArrayBuffer] : [];
}

/**
 * Copies are made one after the other, because each tidies up what a half-made one left. From the moment that another
 * file is asked for nothing more is taken in: it would go aside with the present one.
 */
function listen(opened: () => ReadDb, close: (id: number) => Promise<void>): void {
  let copies: Promise<void> = Promise.resolve();
  let leaving = false;
  port.on('message', (message: ToWorker) => {
    const { op, id } = message;
    spare?.asked();
    if (op === 'restore') spare?.stop();
    if (op === 'close') return void orFault(id, () => close(id));
    if (leaving) return say({ op: 'reply', id, reply: GONE });
    leaving = op === 'restore';
    const work = (): Promise<void> => orFault(id, () => answer(opened(), message));
    if (op === 'backup' || op === 'restore') copies = copies.then(work);
    else void work();
  });
}

const log = (line: string): void => say({ op: 'log', line });

/** The readers play ahead what they will be asked. */
function playingAhead(opened: () => ReadDb | null): SpareTime {
  return inSpareTime(function* () {
    const db = opened();
    if (db) yield* spareWork(db, clock());
  }, log);
}

/** The writer keeps what past days came to: after a start, after commands, after midnight. */
function keepingDays(db: WriteDb): SpareTime {
  const steps = function* () {
    while (keepDays(db, clock())) yield;
  };
  return inSpareTime(steps, log, { quietMs: start.quietMs ?? KEEP_QUIET_MS, againMs: KEEP_AGAIN_MS });
}
const [KEEP_QUIET_MS, KEEP_AGAIN_MS] = [5000, 15 * 60_000];

async function run(): Promise<void> {
  if (start.role === 'solver') {
    port.on('message', (message: ToWorker) => {
      if (message.op === 'compute') say(computeTask(message, start.cancelFlag, say));
      else if (message.op === 'close') say({ op: 'closed', id: message.id });
    });
    return say({ op: 'ready' });
  }
  let db: ReadDb | null =
    start.role === 'core' ? await openShop(start.dataDir, start.migrationsDir, clock()) : null;
  // The readers start beside the writer, and open the file with the first question: it is up to date by then.
  const opened = (): ReadDb => {
    db ??= openForReading(path.join(start.dataDir, DATABASE_FILE));
    return db;
  };
  spare = start.role === 'core' ? keepingDays(db as WriteDb) : playingAhead(() => db);
  const close = async (id: number): Promise<void> => {
    spare?.stop();
    if (db && start.role === 'core') closeShop(db as WriteDb);
    else db?.raw.close();
    say({ op: 'closed', id });
  };
  listen(opened, close);
  say({ op: 'ready' });
}

run().catch((error: unknown) => {
  say({
    op: 'failed',
    kind: storageKindOf(error),
    detail: error instanceof Error ? (error.stack ?? error.message) : String(error),
  });
});
