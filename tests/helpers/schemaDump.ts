import type Database from 'better-sqlite3';

/** The schema as SQLite holds it, in a fixed order: what migrations/schema.sql records. */
export function schemaDump(raw: Database.Database): string {
  const rows = raw
    .prepare(
      "SELECT sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite_%' ORDER BY type DESC, name",
    )
    .pluck()
    .all() as string[];
  return `-- Written by \`npm run schema\`; do not edit.\n\n${rows.join(';\n\n')};\n`;
}
