import Database from 'better-sqlite3';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { planOnce } from './planOnce.ts';
import type { ReadDb, WriteDb } from './types.ts';

/**
 * Opens the shop's database file with the pragmas every connection must have.
 * WAL so that readers never wait for the writer; synchronous=FULL so that an acknowledged write survives a power cut.
 * A read connection cannot write at all (`query_only` and the file opened read-only).
 */
export function openForWriting(file: string): WriteDb {
  const raw = new Database(file);
  planOnce(raw);
  raw.pragma('journal_mode = WAL');
  raw.pragma('synchronous = FULL');
  raw.pragma('foreign_keys = ON');
  // Without it INSERT OR REPLACE would take an append-only row away without its delete trigger.
  raw.pragma('recursive_triggers = ON');
  raw.pragma('busy_timeout = 5000');
  // What is erased is overwritten in the file, not only taken off its lists.
  raw.pragma('secure_delete = ON');
  raw.pragma('temp_store = MEMORY');
  return { raw, orm: drizzle(raw) } as unknown as WriteDb;
}

/** A second connection for views and documents: sees the last committed state, writes nothing. */
export function openForReading(file: string): ReadDb {
  const raw = new Database(file, { readonly: true, fileMustExist: true });
  planOnce(raw);
  raw.pragma('synchronous = FULL');
  raw.pragma('foreign_keys = ON');
  raw.pragma('busy_timeout = 5000');
  raw.pragma('query_only = ON');
  return { raw, orm: drizzle(raw) };
}
