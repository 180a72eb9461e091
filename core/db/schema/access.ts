import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { PersonId } from '../../shared/ids.ts';
import { ROLES } from '../../shared/roles.ts';
import type { EpochMs, LocalDay, Minor } from '../../shared/units.ts';

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

/** What an hour of somebody's work costs the shop, from a day until the next row. */
export const hourCost = sqliteTable(
  'hour_cost',
  {
    personId: text('person_id').$type<PersonId>().notNull(),
    fromDay: text('from_day').$type<LocalDay>().notNull(),
    hourMinor: integer('hour_minor').$type<Minor>().notNull(),
  },
  (table) => [primaryKey({ columns: [table.personId, table.fromDay] })],
);

/** Who is at which window. */
export const session = sqliteTable('session', {
  tokenHash: text('token_hash').primaryKey(),
  personId: text('person_id').$type<PersonId>().notNull(),
  startedMs: integer('started_ms').$type<EpochMs>().notNull(),
  endedMs: integer('ended_ms').$type<EpochMs>(),
});
