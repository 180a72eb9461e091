import type Database from 'better-sqlite3';
import type { BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';

declare const mode: unique symbol;

/** An open shop database. `orm` is drizzle over the same connection; `raw` serves views and prepared text. */
export type ReadDb = {
  readonly raw: Database.Database;
  readonly orm: BetterSQLite3Database;
};
/** Only dispatch hands this out, inside its transaction; stores that write ask for it. */
export type WriteDb = ReadDb & { readonly [mode]: 'write' };
