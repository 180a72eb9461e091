import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { migrate } from '#core/db/migrate.ts';
import { readMigrations } from '#core/db/migrationFiles.ts';
import { openForWriting } from '#core/db/open.ts';
import { schemaDump } from './schemaDump.ts';

const root = path.resolve(import.meta.dirname, '../..');
const db = openForWriting(':memory:');
migrate(db, readMigrations(path.join(root, 'migrations')), 0);
writeFileSync(path.join(root, 'migrations/schema.sql'), schemaDump(db.raw));
db.raw.close();
