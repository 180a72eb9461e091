import type { InvoiceId, JobId } from '../core/shared/ids.ts';
import type { EpochMin, Minor } from '../core/shared/units.ts';
import type { Car } from './cast.ts';
import type { Kind } from './kinds.ts';
import { actAs, carRecord, DAY, HOUR, jobOf, MINUTE, type Stage } from './story.ts';
import { workThrough } from './working.ts';

export type Visit = {
  readonly on: Stage;
  readonly car: Car;
  readonly kind: Kind;
  readonly jobId: JobId;
  /** Asked for with the quote. */
  readonly depositMinor: Minor;
  readonly jobFactor: number;
  readonly drift: number;
  /** The last day that money came in promptly: later invoices wait. */
  readonly untilMs: number;
};

/** Books the job at its earliest, with a deposit for the larger ones. */
export function book(visit: Visit, nowMs: number, notBeforeMs: number): void {
  const { on, jobId } = visit;
  actAs(on, on.desk, nowMs);
  const { dropOffMin } = on.door.write('bays.bookEarliest', {
    jobId,
    notBeforeMin: Math.ceil(notBeforeMs / MINUTE) as EpochMin,
  });
  if (visit.kind.inspected && visit.depositMinor > 0 && on.draw.chance(0.7))
    on.door.write('billing.takeDeposit', { jobId, amountMinor: visit.depositMinor, way: 'transfer' });
  const lateMin = on.draw.chance(0.15) ? on.draw.int(5, 50) : 0;
  on.events.at((dropOffMin + lateMin) * MINUTE, (now) => come(visit, now));
}

/** The car comes, or does not. */
function come(visit: Visit, nowMs: number): void {
  const { on, jobId, car } = visit;
  actAs(on, on.desk, nowMs);
  if (on.draw.chance(0.02)) {
    on.door.write('bookings.noShow', { jobId, reason: 'no word' });
    return;
  }
  const mileage = on.draw.int(8000, 180_000);
  on.door.write('bookings.arrive', { jobId, ...carRecord(on, car, mileage) });
  const stages = jobOf(on, jobId).stages.filter((s) => s.state === 'planned' && s.kind !== 'handover');
  workThrough(visit, stages, nowMs, (ready) => goHome(visit, ready, mileage));
}

/** Ready: the invoice is written, mostly paid, and the car handed over at the promised time or soon after. */
function goHome(visit: Visit, readyMs: number, mileage: number): void {
  const { on, jobId, car } = visit;
  const job = jobOf(on, jobId);
  const promised = (job.promise.pickUpMin ?? 0) * MINUTE;
  const at = on.floor.nextOpen(Math.max(readyMs + 10 * MINUTE, promised + on.draw.int(-10, 60) * MINUTE));
  on.events.at(at, (now) => {
    actAs(on, on.desk, now);
    const { invoiceId } = on.door.write('billing.draftInvoice', { jobId });
    const invoice = on.door.read('billing.readInvoice', { invoiceId });
    on.door.write('billing.issueInvoice', { invoiceId, revision: invoice.revision });
    settle(visit, invoiceId, now);
    on.door.write('bookings.handOver', { jobId, ...carRecord(on, car, mileage + 1) });
  });
}

/** Most pay at the counter, some by transfer in a week or two, a few late or not yet. */
function settle(visit: Visit, invoiceId: InvoiceId, nowMs: number): void {
  const { on } = visit;
  const pay = (share: number) => (now: number) => {
    actAs(on, on.desk, now);
    const { owedMinor } = on.door.read('billing.readInvoice', { invoiceId });
    const amountMinor = Math.round(owedMinor * share) as Minor;
    if (amountMinor > 0)
      on.door.write('billing.takePayment', {
        invoiceIds: [invoiceId],
        amountMinor,
        way: on.draw.pick(['card', 'cash', 'transfer'] as const),
      });
  };
  const roll = on.draw.random();
  const later = (fewest: number, most: number): void =>
    on.events.at(nowMs + on.draw.int(fewest, most) * DAY + HOUR, pay(1));
  if (roll < 0.8) pay(1)(nowMs);
  else if (roll < 0.93) later(4, 16);
  else if (roll < 0.97) {
    pay(0.5)(nowMs);
    later(20, 40);
  }
  // Bad payers pay in the end; the latest ones are what the desk has to remind.
  else later(45, 80);
}
