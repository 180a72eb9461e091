import { and, eq, sql } from 'drizzle-orm';
import { prepared } from '../db/prepared.ts';
import { addRow } from '../db/rows.ts';
import { vehicle, vehicleKeeper } from '../db/schema/people.ts';
import type { ReadDb, WriteDb } from '../db/types.ts';
import type { CustomerId, VehicleId } from '../shared/ids.ts';

export type VehicleRow = typeof vehicle.$inferSelect;

const byId = prepared((db) =>
  db.orm
    .select()
    .from(vehicle)
    .where(eq(vehicle.id, sql.placeholder('id')))
    .prepare(),
);

export function vehicleRow(db: ReadDb, id: VehicleId): VehicleRow | undefined {
  return byId(db).get({ id });
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

const addKeeper = prepared((db) =>
  db.orm
    .insert(vehicleKeeper)
    .values({
      vehicleId: sql.placeholder('vehicleId'),
      customerId: sql.placeholder('customerId'),
      fromMs: sql.placeholder('fromMs'),
    })
    .onConflictDoNothing()
    .prepare(),
);

export function insertKeeper(db: WriteDb, row: typeof vehicleKeeper.$inferInsert): void {
  addKeeper(db).run(row);
}
