import type { CustomerId, VehicleId } from '#core/shared/ids.ts';
import type { VinCheck } from '#core/shared/views/people.ts';
import type { BodyStyle } from '#core/shared/vocabulary.ts';
import { send, type useHost } from '../../bridge/client.ts';

/** Who is on the telephone and about which car, as typed. */
export type Caller = {
  readonly name: string;
  readonly phone: string;
  readonly plate: string;
  readonly body: BodyStyle;
  readonly makeModel: string;
  readonly colour: string;
  readonly year: number | null;
  readonly vin: string;
};
const NOBODY: Caller = {
  ...{ name: '', phone: '', plate: '', body: 'saloon', makeModel: '', colour: '', year: null, vin: '' },
};

type Kept<Id> = { readonly id: Id; readonly revision: number };
export type Ids = { readonly customer: Kept<CustomerId> | null; readonly vehicle: Kept<VehicleId> | null };
/** A caller as far as they are written down: `saved` is what the shop's file holds of `caller`. */
export type CallerDraft = { readonly caller: Caller; readonly ids: Ids; readonly saved: Caller };
export const NOTHING: CallerDraft = {
  caller: NOBODY,
  ids: { customer: null, vehicle: null },
  saved: NOBODY,
};

type Host = ReturnType<typeof useHost>;
type Written = { readonly draft: CallerDraft; readonly vinCheck: VinCheck | null };

function carOf(car: Omit<Caller, 'name' | 'phone'>): Omit<Caller, 'name' | 'phone'> {
  const { plate, body, makeModel, colour, year, vin } = car;
  return { plate, body, makeModel, colour, year, vin };
}

/**
 * Writes what differs from what is kept: the customer, then the vehicle. `onCustomer` hears of the first before the
 * second is written: a vehicle that is refused must not make the next try add the customer again. @throws Refused
 */
export async function writeCaller(
  host: Host,
  draft: CallerDraft,
  onCustomer: (kept: CallerDraft) => void,
): Promise<Written> {
  const { caller, ids } = draft;
  const customer = await keepCustomer(host, draft);
  const { name, phone } = caller;
  onCustomer({ caller, ids: { ...ids, customer }, saved: { ...draft.saved, name, phone } });
  const { vehicle, vinCheck } = await keepVehicle(host, draft, customer.id);
  return { draft: { caller, ids: { customer, vehicle }, saved: caller }, vinCheck };
}

/** Somebody nearly like this one is known already. */
export async function isAlmostKnown(host: Host, { name, phone, plate }: Caller): Promise<boolean> {
  return (await send(host, 'people.findAlmost', { name, phone, plate })).value !== null;
}

/** A caller found among those known, with one of their vehicles or none; what was typed beyond it stays. @throws Refused */
export async function readCaller(
  host: Host,
  typed: Caller,
  customerId: CustomerId,
  vehicleId: VehicleId | null,
): Promise<Written> {
  const { customer } = (await send(host, 'people.customerPage', { customerId })).value;
  const car = vehicleId ? (await send(host, 'people.vehiclePage', { vehicleId })).value.vehicle : null;
  const known: Caller = {
    ...typed,
    name: customer.name,
    phone: customer.phone || typed.phone,
    ...(car ? carOf(car) : {}),
  };
  const ids: Ids = {
    customer: { id: customer.id, revision: customer.revision },
    vehicle: car ? { id: car.id, revision: car.revision } : null,
  };
  const saved = { ...known, phone: customer.phone };
  return { draft: { caller: known, ids, saved }, vinCheck: car?.vinCheck ?? null };
}

async function keepCustomer(host: Host, { ids, caller, saved }: CallerDraft): Promise<Kept<CustomerId>> {
  const { name, phone } = caller;
  const kept = ids.customer;
  if (!kept) {
    const { id } = (await send(host, 'people.addCustomer', { name, phone }, crypto.randomUUID())).value;
    return { id, revision: 1 };
  }
  if (name === saved.name && phone === saved.phone) return kept;
  const fields = { customerId: kept.id, revision: kept.revision, name, phone };
  await send(host, 'people.changeCustomer', fields, crypto.randomUUID());
  return { id: kept.id, revision: kept.revision + 1 };
}

async function keepVehicle(
  host: Host,
  { ids, caller, saved }: CallerDraft,
  customerId: CustomerId,
): Promise<{ readonly vehicle: Kept<VehicleId>; readonly vinCheck: VinCheck | null }> {
  const car = carOf(caller);
  const kept = ids.vehicle;
  if (!kept) {
    const added = await send(host, 'people.addVehicle', { customerId, ...car }, crypto.randomUUID());
    return { vehicle: { id: added.value.id, revision: 1 }, vinCheck: added.value.vinCheck };
  }
  if (JSON.stringify(car) === JSON.stringify(carOf(saved))) return { vehicle: kept, vinCheck: null };
  const fields = { vehicleId: kept.id, revision: kept.revision, ...car };
  const changed = await send(host, 'people.changeVehicle', fields, crypto.randomUUID());
  return { vehicle: { id: kept.id, revision: kept.revision + 1 }, vinCheck: changed.value.vinCheck };
}
