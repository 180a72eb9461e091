import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { PersonId } from '../../shared/ids.ts';
import { ROLES } from '../../shared/roles.ts';
import type { EpochMs, LocalDay } from '../../shared/units.ts';

/** People who work in the shop. */
export const person = sqliteTable('person', {
  id: text('id').$type<PersonId>().primaryKey(),
  name: text('name').notNull(),
  role: text('role', { enum: ROLES }).notNull(),
  pinHash: text('pin_hash'),
  pinTries: integer('pin_tries').notNull().default(0),
  pinWaitMs: integer('pin_wait_ms')
    .$type<EpochMs>()
    .notNull()
    .default(0 as EpochMs),
  startedDay: text('started_day').$type<LocalDay>().notNull(),
  endedDay: text('ended_day').$type<LocalDay>(),
  revision: integer('revision').notNull().default(1),
});

/** Who is at which window. */
export const session = sqliteTable('session', {
  tokenHash: text('token_hash').primaryKey(),
  personId: text('person_id').$type<PersonId>().notNull(),
  startedMs: integer('started_ms').$type<EpochMs>().notNull(),
  endedMs: integer('ended_ms').$type<EpochMs>(),
});
