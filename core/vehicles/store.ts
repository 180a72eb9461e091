import { and, eq, sql } from 'drizzle-orm';
import { addRow } from '../db/rows.ts';
import { vehicle, vehicleKeeper } from '../db/schema/people.ts';
import type { ReadDb, WriteDb } from '../db/types.ts';
import type { CustomerId, VehicleId } from '../shared/ids.ts';

export type VehicleRow = typeof vehicle.$inferSelect;

export function vehicleRow(db: ReadDb, id: VehicleId): VehicleRow | undefined {
  return db.orm.select().from(vehicle).where(eq(vehicle.id, id)).get();
}

export function insertVehicle(db: WriteDb, row: typeof vehicle.$inferInsert): void {
  addRow(db, vehicle, row);
}

/** Changes a vehicle if nobody has since `revision`; false when somebody has. */
export function updateVehicle(
  db: WriteDb,
  id: VehicleId,
  revision: number,
  fields: Partial<typeof vehicle.$inferInsert>,
): boolean {
  const done = db.orm
    .update(vehicle)
    .set({ ...fields, revision: sql`${vehicle.revision} + 1` })
    .where(and(eq(vehicle.id, id), eq(vehicle.revision, revision)))
    .run();
  return done.changes === 1;
}

/** Empties what says whose car it is; measures and paint stay. Returns the vehicles that a customer keeps now. */
export function eraseVehicleMarks(db: WriteDb, customerId: CustomerId): VehicleId[] {
  return db.orm
    .update(vehicle)
    .set({ plate: '', plateKey: '', vin: '', note: '', revision: sql`${vehicle.revision} + 1` })
    .where(eq(vehicle.customerId, customerId))
    .returning({ id: vehicle.id })
    .all()
    .map((row) => row.id);
}

export function insertKeeper(db: WriteDb, row: typeof vehicleKeeper.$inferInsert): void {
  db.orm.insert(vehicleKeeper).values(row).onConflictDoNothing().run();
}
