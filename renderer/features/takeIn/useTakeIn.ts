import { useQueryClient } from '@tanstack/react-query';
import { useCallback, useRef, useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import type { CustomerId, VehicleId } from '#core/shared/ids.ts';
import type { CustomerHit, VehicleLine, VinCheck } from '#core/shared/views/people.ts';
import type { BodyStyle } from '#core/shared/vocabulary.ts';
import { refusalOf, send, useHost } from '../../bridge/client.ts';
import { refresh } from '../../bridge/queries.ts';

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
type Ids = { readonly customer: Kept<CustomerId> | null; readonly vehicle: Kept<VehicleId> | null };

export type TakeIn = {
  readonly caller: Caller;
  readonly ids: Ids;
  readonly vinCheck: VinCheck | null;
  readonly refusal: PlainError | null;
  readonly saving: boolean;
  readonly change: (part: Partial<Caller>) => void;
  /**
   * Writes what differs from what is kept: the customer as soon as there is a name, then the vehicle.
   * While somebody known is nearly the one being typed, a new one waits for a yes or no; `anew` is the no,
   * `ask` puts the question before the person.
   */
  readonly save: (how?: 'anew' | 'ask') => Promise<Ids | null>;
  /** Counts how often the question was put; the question takes the focus then. */
  readonly asked: number;
  /** Takes somebody known instead of a new one, with one of their vehicles if any. */
  readonly takeKnown: (hit: CustomerHit, vehicle: VehicleLine | null) => Promise<void>;
};

/** The left column of a call: saved as it is typed, one write after the other. */
export function useTakeIn(): TakeIn {
  const host = useHost();
  const client = useQueryClient();
  const [caller, setCaller] = useState(NOBODY);
  const [ids, setIds] = useState<Ids>({ customer: null, vehicle: null });
  const [vinCheck, setVinCheck] = useState<VinCheck | null>(null);
  const [refusal, setRefusal] = useState<PlainError | null>(null);
  const [saving, setSaving] = useState(false);
  const [asked, setAsked] = useState(0);
  const now = useRef({ caller, ids, saved: NOBODY });
  const queue = useRef<Promise<unknown>>(Promise.resolve());

  const change = useCallback((part: Partial<Caller>) => {
    now.current.caller = { ...now.current.caller, ...part };
    setCaller(now.current.caller);
  }, []);

  const save = useCallback(
    (how?: 'anew' | 'ask'): Promise<Ids | null> => {
      const run = async (): Promise<Ids | null> => {
        const want = now.current.caller;
        if (want.name.trim() === '') return null;
        setSaving(true);
        try {
          const kept = now.current;
          if (how !== 'anew' && !kept.ids.customer && (await mayBeKnown(host, want))) {
            if (how === 'ask') setAsked((n) => n + 1);
            return null;
          }
          const customer = await keepCustomer(host, kept.ids.customer, want, kept.saved);
          const { vehicle, check } = await keepVehicle(host, kept.ids.vehicle, customer.id, want, kept.saved);
          now.current = { caller: now.current.caller, ids: { customer, vehicle }, saved: want };
          if (check) setVinCheck(check);
          setIds(now.current.ids);
          setRefusal(null);
          refresh(client, ['customers', 'vehicles']);
          return now.current.ids;
        } catch (problem) {
          setRefusal(refusalOf(problem));
          return null;
        } finally {
          setSaving(false);
        }
      };
      const done = queue.current.then(run);
      queue.current = done;
      return done;
    },
    [host, client],
  );

  const takeKnown = useCallback(
    async (hit: CustomerHit, vehicle: VehicleLine | null) => {
      await queue.current;
      try {
        const { customer } = (await send(host, 'people.customerPage', { customerId: hit.id })).value;
        const page = vehicle
          ? (await send(host, 'people.vehiclePage', { vehicleId: vehicle.id })).value.vehicle
          : null;
        const typed = now.current.caller;
        const known: Caller = {
          ...typed,
          name: customer.name,
          phone: customer.phone || typed.phone,
          ...(page ? carOf(page) : {}),
        };
        const next: Ids = {
          customer: { id: customer.id, revision: customer.revision },
          vehicle: page ? { id: page.id, revision: page.revision } : null,
        };
        now.current = { caller: known, ids: next, saved: { ...known, phone: customer.phone } };
        setCaller(known);
        setIds(next);
        setVinCheck(page?.vinCheck ?? null);
        setRefusal(null);
      } catch (problem) {
        setRefusal(refusalOf(problem));
      }
    },
    [host],
  );
  return { caller, ids, vinCheck, refusal, saving, asked, change, save, takeKnown };
}

function carOf(car: Omit<Caller, 'name' | 'phone'>): Omit<Caller, 'name' | 'phone'> {
  const { plate, body, makeModel, colour, year, vin } = car;
  return { plate, body, makeModel, colour, year, vin };
}

type Host = ReturnType<typeof useHost>;

/** Somebody known is nearly this one, or the person is just at the question whether it is. */
async function mayBeKnown(host: Host, { name, phone, plate }: Caller): Promise<boolean> {
  const match = (await send(host, 'people.findAlmost', { name, phone, plate })).value;
  return match !== null || document.activeElement?.closest('[data-question]') != null;
}

async function keepCustomer(
  host: Host,
  kept: Kept<CustomerId> | null,
  want: Caller,
  saved: Caller,
): Promise<Kept<CustomerId>> {
  const { name, phone } = want;
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
  kept: Kept<VehicleId> | null,
  customerId: CustomerId,
  want: Caller,
  saved: Caller,
): Promise<{ readonly vehicle: Kept<VehicleId>; readonly check: VinCheck | null }> {
  const car = carOf(want);
  if (!kept) {
    const added = await send(host, 'people.addVehicle', { customerId, ...car }, crypto.randomUUID());
    return { vehicle: { id: added.value.id, revision: 1 }, check: added.value.vinCheck };
  }
  if (JSON.stringify(car) === JSON.stringify(carOf(saved))) return { vehicle: kept, check: null };
  const fields = { vehicleId: kept.id, revision: kept.revision, ...car };
  const changed = await send(host, 'people.changeVehicle', fields, crypto.randomUUID());
  return { vehicle: { id: kept.id, revision: kept.revision + 1 }, check: changed.value.vinCheck };
}
