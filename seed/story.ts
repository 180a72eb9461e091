import type { BatchDoor } from '../core/host/batchDoor.ts';
import type { JobId, VehicleId } from '../core/shared/ids.ts';
import type { LocalDay, Minor } from '../core/shared/units.ts';
import type { Car, Cast } from './cast.ts';
import type { Draw } from './draw.ts';
import type { Events } from './events.ts';
import type { Floor } from './floor.ts';
import type { Staff } from './frame.ts';
import { type Kind, toldCondition } from './kinds.ts';
import { WISHES } from './names.ts';
import { alike, findingsOf, gaugeText, readingsOf, spotPanel } from './paintwork.ts';
import type { Turns } from './turns.ts';

export const MINUTE = 60_000;
export const HOUR = 60 * MINUTE;
export const DAY = 24 * HOUR;

/** Everything the story of one job needs. */
export type Stage = {
  readonly door: BatchDoor;
  readonly draw: Draw;
  readonly events: Events;
  readonly floor: Floor;
  readonly turns: Turns;
  /** What each car's clock said last. */
  readonly driven: Map<VehicleId, number>;
  readonly desk: Staff;
  readonly owner: Staff;
  readonly technicians: readonly Staff[];
  /** Where the story stops. */
  readonly untilMs: number;
  readonly today: LocalDay;
};

export function actAs(on: Stage, who: Staff, atMs: number): void {
  on.door.as(who);
  on.door.at(atMs);
}

export type Agreed = { readonly car: Car; readonly jobId: JobId; readonly depositMinor: Minor };

/** A telephone rings: the job is opened, priced, quoted, and mostly agreed. Returns null when they do not, or not yet. */
export function takeCall(on: Stage, cast: Cast, kind: Kind, nowMs: number): Agreed | null {
  const { door, draw } = on;
  actAs(on, on.desk, nowMs);
  const car = cast();
  const payerId = on.turns('insured') ? cast.insurer() : null;
  const { jobId } = door.write('bookings.openJob', {
    customerId: car.customerId,
    vehicleId: car.vehicleId,
    payerId,
    purpose: kind.purpose,
    wish: draw.pick(WISHES),
    ceilingMinor: kind.ceilingMinor,
  });
  const estimateId = kind.inspected ? inspect(on, car, kind, jobId, nowMs) : tell(on, car, kind, jobId);
  actAs(on, on.desk, nowMs);
  const { quoteId } = door.write('billing.quoteEstimates', { jobId, estimateIds: [estimateId] });
  door.write('billing.sendQuote', { quoteId, revision: 1 });
  if (nowMs > on.untilMs - 6 * DAY && on.turns('waiting')) return null;
  if (on.turns('declined')) {
    door.write('billing.declineQuote', { quoteId, revision: 2 });
    door.write('bookings.cancelJob', { jobId, reason: 'too dear for them', deposit: null });
    return null;
  }
  const way = draw.pick(['telephone', 'email', 'spoken'] as const);
  const said = { quoteId, revision: 2, letter: 'A' as const, name: car.customer, way };
  const { depositMinor } = door.write('billing.acceptQuote', said);
  return { car, jobId, depositMinor };
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

/** The car was brought round for a look: findings, felt grit, film on some panels, now and then a test spot. */
function inspect(on: Stage, car: Car, kind: Kind, jobId: JobId, nowMs: number): string {
  const { door, draw } = on;
  actAs(on, draw.pick(on.technicians), nowMs);
  door.write('paint.startInspection', { jobId });
  for (const found of alike(findingsOf(car.body, car.paint, draw)))
    door.write('paint.addFindings', { jobId, ...found });
  const felt = car.paint.condition === 'neglected' ? 'heavy' : 'light';
  door.write('paint.feltContamination', { jobId, panel: 'bo', felt });
  const text = gaugeText(readingsOf(car.body, car.paint, draw));
  door.write('paint.pasteReadings', { jobId, text, right: true });
  if (on.turns('testSpot')) {
    const spot = { role: 'oneStep', passes: 4, sections: 1, removedTenthUm: null } as const;
    const seconds = draw.int(190, 330);
    door.write('paint.recordTestSpot', { jobId, panel: spotPanel(car.paint), ...spot, seconds });
  }
  return door.write('estimate.fromInspection', {
    jobId,
    wish: kind.wish,
    interior: kind.interior,
    protection: kind.protection,
    ceiling: kind.ceilingMinor === null ? null : { kind: 'money', value: kind.ceilingMinor },
  }).estimateId;
}

/** A clock never runs back: of a car seen before, what is drawn says how far it drove since. */
function readClock(on: Stage, car: Car, drawn: number): number {
  const last = on.driven.get(car.vehicleId);
  const mileage = last === undefined ? drawn : last + 1 + (drawn % MOST_BETWEEN);
  on.driven.set(car.vehicleId, mileage);
  return mileage;
}
const MOST_BETWEEN = 9000;

/** The arrival and handover record of the demo: a set of keys, a mileage, agreed on paper. */
export function carRecord(on: Stage, car: Car, drawn: number) {
  const mileage = readClock(on, car, drawn);
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
