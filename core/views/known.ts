import { oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { refuse } from '../shared/errors.ts';
import type { JobId, PersonId } from '../shared/ids.ts';

/** The job that something is noted for, or null when none was named. @throws NOT_FOUND when it is not there */
export function knownJob(db: ReadDb, id: JobId | null): JobId | null {
  if (id === null || oneRow(db, 'SELECT 1 FROM job WHERE id = :id', { id })) return id;
  return refuse('NOT_FOUND', { what: 'job', id });
}

/** The person that something is noted for, or null when none was named. @throws NOT_FOUND when not there */
export function knownPerson(db: ReadDb, id: PersonId | null): PersonId | null {
  if (id === null || oneRow(db, 'SELECT 1 FROM person WHERE id = :id', { id })) return id;
  return refuse('NOT_FOUND', { what: 'person', id });
}
