import type { Actor } from '../context.ts';
import { oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { PersonId } from '../shared/ids.ts';
import type { Role } from '../shared/roles.ts';
import { defaultSettings } from '../shared/settings.ts';
import { localDayOf } from '../shared/time.ts';
import { type EpochMs, type LocalDay, MS_PER_MIN } from '../shared/units.ts';
import { tokenHash } from './token.ts';

type Row = {
  readonly personId: PersonId;
  readonly name: string;
  readonly role: Role;
  readonly startedMs: number;
  readonly endedDay: LocalDay | null;
  readonly zone: string;
  readonly sessionMin: number | null;
};

const SESSION = `SELECT p.id AS personId, p.name, p.role, s.started_ms AS startedMs, p.ended_day AS endedDay,
  shop.zone, json_extract(shop.settings, '$.access.sessionMin') AS sessionMin
  FROM session s JOIN person p ON p.id = s.person_id JOIN shop ON shop.id = 1
  WHERE s.token_hash = :hash AND s.ended_ms IS NULL`;

const USUAL_MIN = defaultSettings().access.sessionMin;

/**
 * Who holds a window's token now, or null: no token, signed out, signed in too long ago, or a person
 * whose last day is over.
 */
export function actorOf(db: ReadDb, token: string | undefined, now: EpochMs): Actor | null {
  if (token === undefined || token === '') return null;
  const row = oneRow<Row>(db, SESSION, { hash: tokenHash(token) });
  if (!row) return null;
  if (now - row.startedMs >= (row.sessionMin ?? USUAL_MIN) * MS_PER_MIN) return null;
  if (row.endedDay !== null && localDayOf(now, row.zone) > row.endedDay) return null;
  return { personId: row.personId, name: row.name, role: row.role };
}
