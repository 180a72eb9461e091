import type { SetAside } from '#core/shared/catalogue/bookingsInputs.ts';
import type { SentFor } from '#core/shared/catalogue.ts';
import type { CustomerId, JobId, StageId, VehicleId } from '#core/shared/ids.ts';
import type { StagePlan } from '#core/shared/stagePlan.ts';
import type { PanelId, StageKind } from '#core/shared/vocabulary.ts';
import type { TestShop } from './shop.ts';

/** Machine work on paint that nobody decontaminated or clayed, approved with a reason. */
export function unclayed(reason: string): SetAside {
  return { reason, rules: ['washBeforeTouch', 'decontaminateBeforeMachine', 'clayBeforeMachine'] };
}

/** A stage plan of an hour, half an hour either way; a cure is nobody's and lasts twelve hours. */
export function planned(kind: StageKind, panels: readonly PanelId[] = ['bo', 'ro']): StagePlan {
  const cure = kind === 'cure';
  const min = cure ? 0 : 60;
  return {
    kind,
    panels: [...panels],
    estimatedMin: min,
    p20Min: cure ? 0 : 45,
    p50Min: min,
    p80Min: cure ? 0 : 80,
    p95Min: cure ? 0 : 110,
    mu: cure ? 0 : Math.log(60),
    sigma: cure ? 0 : 0.35,
    dwellMin: cure ? 720 : 0,
    bayKinds: ['correction'],
    skill: 'correction',
    crew: cure ? 0 : 1,
    splittable: true,
    materials: kind === 'cut' ? [{ material: 'heavyCutCompound', amount: 30_000 }] : [],
    note: '',
  };
}

/** A customer with an umlaut, a saloon, and a job with the given stages. */
export function jobWith(
  shop: TestShop,
  kinds: readonly StageKind[],
): { jobId: JobId; stageIds: readonly StageId[]; customerId: CustomerId; vehicleId: VehicleId } {
  const customerId = 'c0000000000000000001' as CustomerId;
  const vehicleId = 'v0000000000000000001' as VehicleId;
  shop.db.raw
    .prepare(
      `INSERT OR IGNORE INTO customer (id, kind, name, phone, phone_key, email, address, country, tax_number, locale, note, created_ms)
       VALUES (?, 'person', 'Jörg Ößterling', '0555 010', '0555010', '', '', '', '', '', '', 0)`,
    )
    .run(customerId);
  shop.db.raw
    .prepare(
      `INSERT OR IGNORE INTO vehicle (id, customer_id, body, make_model, colour, plate, plate_key, vin, hardness, note, created_ms)
       VALUES (?, ?, 'saloon', 'Velloy Merrin', 'deep blue', 'RL 12', 'RL12', '', 'unknown', '', 0)`,
    )
    .run(vehicleId, customerId);
  const { jobId } = shop.write('bookings.openJob', {
    customerId,
    vehicleId,
    purpose: 'correction',
    wish: 'Swirls in the sun.',
  });
  const { stageIds } = shop.write('bookings.setStages', {
    jobId,
    basis: 'agreed',
    stages: kinds.map((kind) => planned(kind)),
  });
  return { jobId, stageIds, customerId, vehicleId };
}

/** An arrival or handover record, agreed on the printed form. */
export const CAR_RECORD: Omit<SentFor<'bookings.arrive'>, 'jobId'> = {
  mileage: 48_120,
  mileageUnit: 'km',
  keyCount: 2,
  belongings: 'child seat',
  damage: [{ panel: 'fb', note: 'stone chips' }],
  picturesRecord: true,
  picturesPublish: false,
  agreedBy: 'Jörg Ößterling',
  agreedWay: 'printedForm',
};
