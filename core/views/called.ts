import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { foldText } from '../people/rules/names.ts';
import type { CustomerId, VehicleId } from '../shared/ids.ts';

/** Texts are compared here, since SQLite itself knows upper and lower case of plain letters only, and no accents. */
function called<Id extends string>(db: ReadDb, sql: string, text: string): readonly Id[] {
  const wanted = foldText(text);
  return allRows<{ readonly id: Id; readonly name: string }>(db, sql)
    .filter((row) => foldText(row.name).includes(wanted))
    .map((row) => row.id);
}

/** Vehicles whose make and model hold a text, whatever its case and accents. */
export function vehiclesCalled(db: ReadDb, text: string): readonly VehicleId[] {
  return called(db, 'SELECT id, make_model AS name FROM vehicle', text);
}

/** Customers whose name holds a text, whatever its case and accents. */
export function customersCalled(db: ReadDb, text: string): readonly CustomerId[] {
  return called(db, 'SELECT id, name FROM customer', text);
}
