import type { BatchDoor } from '../core/host/batchDoor.ts';
import type { JobId } from '../core/shared/ids.ts';
import type { Minor } from '../core/shared/units.ts';
import type { JobView } from '../core/shared/views/bookings.ts';
import type { Car } from './cast.ts';
import type { Draw } from './draw.ts';
import type { Events } from './events.ts';
import type { Floor } from './floor.ts';
import type { Staff } from './frame.ts';
import { type Kind, toldCondition } from './kinds.ts';
import { WISHES } from './names.ts';
import { findingsOf, plasticOf, readingsOf } from './paintwork.ts';

export const MINUTE = 60_000;
export const HOUR = 60 * MINUTE;
export const DAY = 24 * HOUR;

/** Everything the story of one job needs. */
export type Stage = {
  readonly door: BatchDoor;
  readonly draw: Draw;
  readonly events: Events;
  readonly floor: Floor;
  readonly desk: Staff;
  readonly owner: Staff;
  readonly technicians: readonly Staff[];
};

export function actAs(on: Stage, who: Staff, atMs: number): void {
  on.door.as(who);
  on.door.at(atMs);
}

export type Agreed = { readonly jobId: JobId; readonly depositMinor: Minor };

/** A telephone rings: the job is opened, priced, quoted, and mostly agreed. Returns null when they say no. */
export function takeCall(on: Stage, car: Car, kind: Kind, nowMs: number): Agreed | null {
  const { door, draw } = on;
  actAs(on, on.desk, nowMs);
  const { jobId } = door.write('bookings.openJob', {
    customerId: car.customerId,
    vehicleId: car.vehicleId,
    purpose: kind.purpose,
    wish: draw.pick(WISHES),
    ceilingMinor: kind.ceilingMinor,
  });
  const estimateId = kind.inspected ? inspect(on, car, kind, jobId, nowMs) : tell(on, car, kind, jobId);
  actAs(on, on.desk, nowMs);
  const { quoteId } = door.write('billing.quoteEstimates', { jobId, estimateIds: [estimateId] });
  door.write('billing.sendQuote', { quoteId, revision: 1 });
  if (draw.chance(0.07)) {
    door.write('billing.declineQuote', { quoteId, revision: 2 });
    door.write('bookings.cancelJob', { jobId, reason: 'too dear for them', deposit: null });
    return null;
  }
  const way = draw.pick(['telephone', 'email', 'spoken'] as const);
  const { depositMinor } = door.write('billing.acceptQuote', {
    quoteId,
    revision: 2,
    letter: 'A',
    name: car.customer,
    way,
  });
  return { jobId, depositMinor };
}

function tell(on: Stage, car: Car, kind: Kind, jobId: JobId): string {
  return on.door.write('estimate.provisional', {
    jobId,
    wish: kind.wish,
    condition: toldCondition(car.paint.condition, on.draw),
    interior: kind.interior,
    protection: kind.protection,
  }).estimateId;
}

/** The car was brought round for a look: findings, felt grit, film on some panels. */
function inspect(on: Stage, car: Car, kind: Kind, jobId: JobId, nowMs: number): string {
  const { door, draw } = on;
  actAs(on, draw.pick(on.technicians), nowMs);
  door.write('paint.startInspection', { jobId });
  for (const panel of plasticOf(car.body))
    door.write('paint.setSubstrate', { jobId, panel, substrate: 'plastic' });
  for (const found of findingsOf(car.body, car.paint, draw))
    door.write('paint.addFinding', { jobId, ...found });
  door.write('paint.feltContamination', {
    jobId,
    panel: 'bo',
    felt: car.paint.condition === 'neglected' ? 'heavy' : 'light',
  });
  for (const { panel, values } of readingsOf(car.body, car.paint, draw))
    door.write('paint.addReadings', { jobId, panel, values: [...values] });
  return door.write('estimate.fromInspection', {
    jobId,
    wish: kind.wish,
    interior: kind.interior,
    protection: kind.protection,
    ceiling: kind.ceilingMinor === null ? null : { kind: 'money', value: kind.ceilingMinor },
  }).estimateId;
}

/** The arrival and handover record of the demo: a set of keys, a mileage, agreed on paper. */
export function carRecord(on: Stage, car: Car, mileage: number) {
  const record = on.draw.chance(0.85);
  return {
    mileage,
    mileageUnit: 'km' as const,
    keyCount: on.draw.int(1, 2),
    belongings: on.draw.chance(0.3)
      ? on.draw.pick(['child seat in the back', 'umbrella', 'tools in the boot'])
      : '',
    damage: on.draw.chance(0.25) ? [{ panel: 'fb' as const, note: 'scuffed at the corner' }] : [],
    picturesRecord: record,
    picturesPublish: record && on.draw.chance(0.3),
    agreedBy: car.customer,
    agreedWay: 'printedForm' as const,
  };
}

/** Read once where the story needs stages and places. */
export function jobOf(on: Stage, jobId: JobId): JobView {
  return on.door.read('bookings.job', { jobId });
}
