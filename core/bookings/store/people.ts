import { oneRow } from '../../db/prepared.ts';
import type { ReadDb } from '../../db/types.ts';
import type { CustomerId, PersonId, VehicleId } from '../../shared/ids.ts';

export type WorkerRow = { readonly id: PersonId; readonly name: string; readonly endedDay: string | null };

/** Somebody who works (or worked) in the shop. */
export function findWorker(db: ReadDb, id: PersonId): WorkerRow | undefined {
  return oneRow<WorkerRow>(db, 'SELECT id, name, ended_day AS endedDay FROM person WHERE id = :id', { id });
}

/** True when there is such a customer. */
export function hasCustomer(db: ReadDb, id: CustomerId): boolean {
  return oneRow(db, 'SELECT 1 AS yes FROM customer WHERE id = :id', { id }) !== undefined;
}

/** True when there is such a vehicle. */
export function hasVehicle(db: ReadDb, id: VehicleId): boolean {
  return oneRow(db, 'SELECT 1 AS yes FROM vehicle WHERE id = :id', { id }) !== undefined;
}
