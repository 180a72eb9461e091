import type { ReadDb, WriteDb } from './db/types.ts';
import type { PersonId } from './shared/ids.ts';
import type { Role } from './shared/roles.ts';
import type { EpochMs } from './shared/units.ts';

/** Who is acting: a person with a role, or nobody yet. */
export type Actor = { readonly personId: PersonId; readonly name: string; readonly role: Role };

/** All that a handler may know of the world: no globals, no clock of its own. */
export type ReadCtx = {
  readonly db: ReadDb;
  readonly now: EpochMs;
  readonly actor: Actor | null;
};

export type WriteCtx = ReadCtx & {
  readonly db: WriteDb;
  newId<T extends string>(): T;
  /** Names what a write changed, for the journal: record ids and field names, never values. */
  changed(subjectId: string, ...fields: readonly string[]): void;
  /** Does what can't be rolled back, such as removing a file, once the write is in the shop's file. */
  onceKept(work: () => void): void;
};

/** Progress of a long computation, and whether somebody asked it to stop. */
export type TaskCtx = {
  progress(done: number, total: number, note?: unknown): void;
  cancelled(): boolean;
};
