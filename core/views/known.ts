import { oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { refuse } from '../shared/errors.ts';
import type { ItemId, JobId, PersonId } from '../shared/ids.ts';

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

/** An item of stock by its name, and whether it goes round. @throws NOT_FOUND when it is not there */
export function knownItem(db: ReadDb, id: ItemId): { readonly name: string; readonly reusable: boolean } {
  const item = oneRow<{ name: string; reusable: number }>(
    db,
    'SELECT name, reusable FROM stock_item WHERE id = :id',
    { id },
  );
  return item
    ? { name: item.name, reusable: item.reusable === 1 }
    : refuse('NOT_FOUND', { what: 'stockItem', id });
}
