import type Database from 'better-sqlite3';
import { StorageFault } from './faults.ts';
import type { MigrationFile } from './migrationFiles.ts';
import type { WriteDb } from './types.ts';

/** 'RAKL' in ASCII: marks the file as ours, so that another program's database is refused. */
export const APPLICATION_ID = 0x52414b4c;

/**
 * Brings the file up to the shipped migrations. Each runs in its own transaction with foreign keys off outside it
 * (SQLite ignores that pragma inside), then the keys are checked and no table may have lost rows.
 * @throws StorageFault newer   when the file comes from a later version
 * @throws StorageFault foreign when the file is not ours, or an applied migration is not the one that this program ships
 */
export function migrate(
  db: WriteDb,
  files: readonly MigrationFile[],
  now: number,
): { readonly applied: number } {
  const raw = db.raw;
  refuseForeignFile(raw);
  const at = raw.pragma('user_version', { simple: true }) as number;
  if (at > files.length)
    throw new StorageFault('newer', `database version ${at}, program knows ${files.length}`);
  if (at > 0) checkHashes(raw, files.slice(0, at));
  const todo = files.slice(at);
  raw.pragma('foreign_keys = OFF');
  try {
    for (const file of todo) apply(raw, file, now);
  } finally {
    raw.pragma('foreign_keys = ON');
  }
  return { applied: todo.length };
}

function refuseForeignFile(raw: Database.Database): void {
  const id = raw.pragma('application_id', { simple: true });
  const tables = raw.prepare('SELECT count(*) AS n FROM sqlite_master').get() as { n: number };
  if (tables.n > 0 && id !== APPLICATION_ID) throw new StorageFault('foreign', 'not a Rakelight database');
}

function checkHashes(raw: Database.Database, files: readonly MigrationFile[]): void {
  const rows = raw.prepare('SELECT number, hash FROM migration ORDER BY number').all() as {
    number: number;
    hash: string;
  }[];
  for (const file of files) {
    const row = rows.find((r) => r.number === file.number);
    if (row?.hash !== file.hash)
      throw new StorageFault('foreign', `migration ${file.name} is not the one that was applied`);
  }
}

function apply(raw: Database.Database, file: MigrationFile, now: number): void {
  const before = rowCounts(raw);
  raw.transaction(() => {
    if (file.number === 1) {
      raw.exec(
        'CREATE TABLE migration (number INTEGER PRIMARY KEY, name TEXT NOT NULL, hash TEXT NOT NULL, at_ms INTEGER NOT NULL) STRICT',
      );
      raw.pragma(`application_id = ${APPLICATION_ID}`);
    }
    raw.exec(file.sql);
    const broken = raw.pragma('foreign_key_check') as unknown[];
    if (broken.length > 0)
      throw new StorageFault('damaged', `${file.name} would break ${broken.length} references`);
    const after = rowCounts(raw);
    for (const [table, count] of before) {
      if ((after.get(table) ?? count) < count)
        throw new StorageFault('damaged', `${file.name} would lose rows of ${table}`);
    }
    raw
      .prepare('INSERT INTO migration (number, name, hash, at_ms) VALUES (?, ?, ?, ?)')
      .run(file.number, file.name, file.hash, now);
    raw.pragma(`user_version = ${file.number}`);
  })();
}

function rowCounts(raw: Database.Database): Map<string, number> {
  const tables = raw
    .prepare("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    .all() as { name: string }[];
  return new Map(
    tables.map(({ name }) => [
      name,
      (raw.prepare(`SELECT count(*) AS n FROM "${name}"`).get() as { n: number }).n,
    ]),
  );
}
