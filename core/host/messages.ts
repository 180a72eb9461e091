import type { BackupFile, BackupMade, BackupReason } from '../db/backup.ts';
import type { StorageKind } from '../db/faults.ts';
import type { Restored } from '../db/restore.ts';
import type { EntryKind } from '../shared/entry.ts';
import type { Call, Reply } from '../shared/reply.ts';

/** The answer to whatever is asked of a worker that is not there, or about to leave. */
export const GONE: Reply = { ok: false, error: { code: 'WORKER_GONE', data: {} } };

/** What a worker is for: the only writer, the readers' snapshot, or long computations. */
export type WorkerRole = 'core' | 'views' | 'solver';

export type WorkerStart = {
  readonly role: WorkerRole;
  readonly dataDir: string;
  readonly migrationsDir: string;
  /** Byte 0 is set to 1 to ask the solver's running computation to stop. */
  readonly cancelFlag: SharedArrayBuffer;
  readonly quietMs?: number | undefined;
};

/** What the host cannot know by itself: the list of actions stays in the workers, which have to read it anyway. */
export type About = {
  readonly sqlite: string;
  readonly kinds: Readonly<Record<string, EntryKind>>;
  /** Whether the shop in the file was set up when this was asked. */
  readonly isSetUp: boolean;
};

export type ToWorker =
  | { readonly op: 'call'; readonly id: number; readonly call: Call }
  | { readonly op: 'allowed'; readonly id: number; readonly call: Call }
  | { readonly op: 'backup'; readonly id: number; readonly reason: BackupReason }
  | { readonly op: 'about'; readonly id: number }
  | { readonly op: 'backups'; readonly id: number }
  /** Closes the file, then puts a copy in its place. The worker is of no further use. */
  | { readonly op: 'restore'; readonly id: number; readonly fileName: string }
  | { readonly op: 'compute'; readonly id: number; readonly name: string; readonly model: unknown }
  | { readonly op: 'close'; readonly id: number };

export type FromWorker =
  | { readonly op: 'ready' }
  | { readonly op: 'failed'; readonly kind: StorageKind | null; readonly detail: string }
  | { readonly op: 'reply'; readonly id: number; readonly reply: Reply }
  /** A task's model is gathered; the client passes it to the solver. */
  | { readonly op: 'gathered'; readonly id: number; readonly name: string; readonly model: unknown }
  | { readonly op: 'backedUp'; readonly id: number; readonly backup: BackupMade }
  | { readonly op: 'about'; readonly id: number; readonly about: About }
  | { readonly op: 'copies'; readonly id: number; readonly copies: readonly BackupFile[] }
  | { readonly op: 'restored'; readonly id: number; readonly restored: Restored }
  | {
      readonly op: 'progress';
      readonly id: number;
      readonly done: number;
      readonly total: number;
      readonly note?: unknown;
    }
  | { readonly op: 'log'; readonly line: string }
  | { readonly op: 'closed'; readonly id: number };
