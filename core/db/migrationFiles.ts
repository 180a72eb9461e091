import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { invariant } from '../shared/errors.ts';

export type MigrationFile = {
  readonly number: number;
  readonly name: string;
  readonly sql: string;
  readonly hash: string;
};

/** The shipped migrations in order. Numbers must run 1, 2, 3 … without a gap. */
export function readMigrations(dir: string): readonly MigrationFile[] {
  const names = readdirSync(dir)
    .filter((name) => /^\d{4}_[a-z_]+\.sql$/.test(name))
    .sort();
  return names.map((name, index) => {
    const number = Number(name.slice(0, 4));
    invariant(number === index + 1, `migration ${name} should be number ${index + 1}`);
    const sql = readFileSync(path.join(dir, name), 'utf8');
    return { number, name, sql, hash: createHash('sha256').update(sql).digest('hex') };
  });
}
