import type { Actor, TaskCtx } from '../context.ts';
import { contract } from '../contract.ts';
import { asPart, atomically } from '../db/atomic.ts';
import type { WriteDb } from '../db/types.ts';
import { type Door, dispatchWrite } from '../dispatch.ts';
import { catalogue, type EntryName, type OutputFor, type SentFor } from '../shared/catalogue.ts';
import { DomainError, invariant } from '../shared/errors.ts';
import { makeId, type PersonId } from '../shared/ids.ts';
import { seeded } from '../shared/random.ts';
import type { Reply } from '../shared/reply.ts';
import type { Role } from '../shared/roles.ts';
import type { EpochMs } from '../shared/units.ts';
import { closeShop, openShop } from './openShop.ts';

/**
 * The door for many commands in a row: imports and the demo shop. The caller says when "now" is and who acts;
 * commands inside one `batch` share a transaction. One that is refused before it wrote anything is only refused; after
 * one that fails later nothing of the batch is kept.
 */
export type BatchDoor = {
  write<N extends EntryName>(name: N, input: SentFor<N>): OutputFor<N>;
  read<N extends EntryName>(name: N, input: SentFor<N>): OutputFor<N>;
  /** Gathers and computes a task in place. */
  compute<N extends EntryName>(name: N, input: SentFor<N>): OutputFor<N>;
  at(ms: number): void;
  as(person: { readonly id: PersonId; readonly name: string; readonly role: Role } | null): void;
  /** @throws what `work` throws, or what a command failed with when it had written */
  batch(work: () => void): void;
  close(): void;
};

const CACHE_KIB = 98_304;
const quiet: TaskCtx = { progress: () => {}, cancelled: () => false };
type Handlers = Readonly<Record<string, (ctx: unknown, input: unknown) => unknown>>;

/** Opens a data folder for a batch. Ids come from `seed`, so the same script writes the same file. */
export async function openBatchDoor(
  dataDir: string,
  migrationsDir: string,
  seed: number,
  startMs: number,
): Promise<BatchDoor> {
  const db = await openShop(dataDir, migrationsDir, startMs);
  // Everything a batch writes is kept in memory until its end, not written out and read in again.
  db.raw.pragma(`cache_size = -${CACHE_KIB}`);
  return { ...batchDoorOver(db, seed, startMs), close: () => closeShop(db) };
}

/** The same over a database that is open already. */
export function batchDoorOver(db: WriteDb, seed: number, startMs: number): BatchDoor {
  const random = seeded(seed);
  let now = startMs as EpochMs;
  let actor: Actor | null = null;
  const batch = batchOver(db);
  const door: Door = {
    db,
    whole: batch.whole,
    catalogue,
    handlers: contract,
    now: () => now,
    newId: () => makeId(now, () => Math.floor(random() * 32)),
    actorOf: () => actor,
    log: () => {},
    compute: async () => invariant(false, 'a batch computes in place'),
  };
  const parsed = (name: EntryName, input: unknown): unknown => catalogue[name].input.parse(input);
  return {
    write: (name, input) => accepted(dispatchWrite(door, { name, input })),
    read: (name, input) =>
      (contract as unknown as Handlers)[name]?.({ db, now, actor }, parsed(name, input)) as never,
    compute: (name, input) => {
      const task = (
        contract as unknown as Readonly<
          Record<string, { gather: Handlers[string]; run: (m: unknown, t: TaskCtx) => unknown }>
        >
      )[name];
      return task?.run(task.gather({ db, now, actor }, parsed(name, input)), quiet) as never;
    },
    at: (ms) => {
      now = ms as EpochMs;
    },
    as: (person) => {
      actor = person && { personId: person.id, name: person.name, role: person.role };
    },
    batch: batch.run,
    close: () => db.raw.close(),
  };
}

/** Commands of a batch are parts of its transaction; outside of one each is a transaction of its own. */
function batchOver(db: WriteDb): { readonly whole: typeof atomically; readonly run: BatchDoor['batch'] } {
  let inBatch = false;
  let failed: { readonly error: unknown } | null = null;
  const halfDone = (error: unknown): void => {
    failed ??= { error };
  };
  const keep = (work: () => void): void => {
    work();
    if (failed) throw failed.error;
  };
  return {
    whole: (of, work) => (inBatch ? asPart(of, work, halfDone) : atomically(of, work)),
    run: (work) => {
      inBatch = true;
      failed = null;
      try {
        db.raw.transaction(keep).immediate(work);
      } finally {
        inBatch = false;
      }
    },
  };
}

function accepted<T>(reply: Reply): T {
  if (!reply.ok) throw new DomainError(reply.error.code, reply.error.data);
  return reply.value as T;
}
