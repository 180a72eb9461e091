import type { WriteCtx } from '../context.ts';
import { refuse } from '../shared/errors.ts';
import type { CustomerId, VehicleId } from '../shared/ids.ts';
import { localDayOf } from '../shared/time.ts';
import type { VinCheck } from '../shared/views/people.ts';
import type { BodyStyle } from '../shared/vocabulary.ts';
import { customerKept } from '../views/customerPage.ts';
import { shopOf } from '../views/shop.ts';
import { cleanVehicle, type VehicleFields } from './rules/vehicle.ts';
import { checkVin } from './rules/vin.ts';
import { eraseVehicleMarks, insertKeeper, insertVehicle, updateVehicle, vehicleRow } from './store.ts';

/** Adds a vehicle to a customer; a body style is enough. A vehicle number that does not fit is kept and said. @throws NOT_FOUND, YEAR_UNLIKELY */
export function addVehicle(
  ctx: WriteCtx,
  input: VehicleFields & { readonly customerId: CustomerId; readonly body: BodyStyle },
): { readonly id: VehicleId; readonly vinCheck: VinCheck } {
  const { customerId, ...fields } = input;
  customerKept(ctx.db, customerId);
  const id = ctx.newId<VehicleId>();
  const said = cleanVehicle(fields, thisYear(ctx));
  insertVehicle(ctx.db, {
    ...{ makeModel: '', colour: '', plate: '', plateKey: '', vin: '', note: '', hardness: 'unknown' },
    ...said,
    body: input.body,
    id,
    customerId,
    createdMs: ctx.now,
  });
  insertKeeper(ctx.db, { vehicleId: id, customerId, fromMs: ctx.now });
  ctx.changed(id, ...Object.keys(said));
  return { id, vinCheck: checkVin(input.vin ?? '') };
}

/** Changes what is known of a vehicle, also who keeps it now; earlier keepers stay listed. @throws STALE, NOT_FOUND, YEAR_UNLIKELY */
export function changeVehicle(
  ctx: WriteCtx,
  input: VehicleFields & {
    readonly vehicleId: VehicleId;
    readonly revision: number;
    readonly customerId?: CustomerId | undefined;
  },
): { readonly vinCheck: VinCheck } {
  const { vehicleId, revision, customerId, ...fields } = input;
  const row = vehicleRow(ctx.db, vehicleId) ?? refuse('NOT_FOUND', { what: 'vehicle', id: vehicleId });
  const said = cleanVehicle(fields, thisYear(ctx));
  const keeper = customerId ?? row.customerId;
  if (keeper !== row.customerId) customerKept(ctx.db, keeper);
  if (!updateVehicle(ctx.db, vehicleId, revision, { ...said, customerId: keeper }))
    refuse('STALE', { what: 'vehicle' });
  if (keeper !== row.customerId) insertKeeper(ctx.db, { vehicleId, customerId: keeper, fromMs: ctx.now });
  ctx.changed(vehicleId, ...Object.keys(said), ...(keeper === row.customerId ? [] : ['customerId']));
  return { vinCheck: checkVin(said.vin ?? row.vin) };
}

/** Empties plate, vehicle number and note of the vehicles that a customer keeps now. */
export function eraseVehiclesOf(ctx: WriteCtx, customerId: CustomerId): void {
  for (const id of eraseVehicleMarks(ctx.db, customerId)) ctx.changed(id, 'plate', 'vin', 'note');
}

function thisYear(ctx: WriteCtx): number {
  return Number(localDayOf(ctx.now, shopOf(ctx.db).zone).slice(0, 4));
}
