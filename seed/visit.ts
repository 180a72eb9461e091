import type { InvoiceId, JobId } from '../core/shared/ids.ts';
import { localDayOf } from '../core/shared/time.ts';
import type { Minor } from '../core/shared/units.ts';
import type { Car } from './cast.ts';
import { ZONE } from './crew.ts';
import { bookFrom, bookIfRoom, plainStage, someDaysLater } from './extras.ts';
import type { Kind } from './kinds.ts';
import { afterText } from './paintwork.ts';
import { actAs, carRecord, DAY, HOUR, MINUTE, type Stage } from './story.ts';
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
};

/** For so long before the demo's day nobody has said what becomes of a deposit whose car did not come. */
const UNDECIDED_DAYS = 60;

/** Books the job at its earliest, with a deposit for the larger ones; who finds the weeks full goes elsewhere. */
export function book(visit: Visit, nowMs: number, notBeforeMs: number): void {
  const { on, jobId } = visit;
  actAs(on, on.desk, nowMs);
  const agreed = bookIfRoom(on, jobId, notBeforeMs);
  if (!agreed) {
    on.door.write('bookings.cancelJob', { jobId, reason: 'too long to wait' });
    return;
  }
  const held = visit.kind.inspected && visit.depositMinor > 0 && on.draw.chance(0.7);
  if (held) on.door.write('billing.takeDeposit', { jobId, amountMinor: visit.depositMinor, way: 'transfer' });
  if (held && on.turns('depositKept')) {
    on.events.at(on.floor.nextOpen(nowMs + 20 * HOUR), (now) => {
      actAs(on, on.desk, now);
      const deposit = { outcome: 'kept', way: 'transfer' } as const;
      on.door.write('bookings.cancelJob', { jobId, reason: 'sold the car', deposit });
    });
    return;
  }
  const lateMin = on.draw.chance(0.15) ? on.draw.int(5, 50) : 0;
  const promiseMs = agreed.pickUpMin * MINUTE;
  const paid = held ? visit : { ...visit, depositMinor: 0 as Minor };
  on.events.at((agreed.dropOffMin + lateMin) * MINUTE, (now) => come(paid, now, promiseMs));
}

/** The car comes, or does not. */
function come(visit: Visit, nowMs: number, promiseMs: number): void {
  const { on, jobId, car } = visit;
  const today = localDayOf(nowMs, ZONE) === on.today;
  actAs(on, on.desk, nowMs);
  if (!today && on.turns('noShow')) {
    // What became of a deposit has been said of all but the latest.
    const said = visit.depositMinor > 0 && nowMs < on.untilMs - UNDECIDED_DAYS * DAY;
    const deposit = said ? ({ outcome: 'kept', way: 'transfer' } as const) : null;
    on.door.write('bookings.noShow', { jobId, reason: 'no word', deposit });
    return;
  }
  on.door.write('bookings.arrive', { jobId, ...carRecord(on, car, on.draw.int(8000, 180_000)) });
  const { stages } = on.door.read('bookings.job', { jobId });
  const todo = stages.filter((s) => s.state === 'planned' && s.kind !== 'handover');
  const worst = todo.some((s) => s.kind === 'cut') ? 'cut' : 'clay';
  const stopAfter = visit.kind.inspected && !today && on.turns('stopped') ? worst : null;
  workThrough({ ...visit, stopAfter }, todo, nowMs, (ready) => goHome(visit, ready, promiseMs));
}

/** Ready: the invoice is written, mostly paid, and the car handed over at the promised time or soon after. */
function goHome(visit: Visit, readyMs: number, promiseMs: number): void {
  const { on, jobId, car } = visit;
  if (visit.kind.inspected && on.turns('readAfter'))
    on.door.write('paint.pasteReadings', {
      ...{ jobId, phase: 'after', text: afterText(car, on.draw) },
      right: true,
    });
  // Ready before its time: they are rung up, and most fetch the car the same day.
  const wanted = on.draw.chance(0.7) ? readyMs + on.draw.int(20, 240) * MINUTE : promiseMs;
  const atLatest = promiseMs + on.draw.int(-10, 60) * MINUTE;
  const at = on.floor.nextOpen(Math.max(readyMs + 10 * MINUTE, Math.min(wanted, atLatest)));
  on.events.at(at, (now) => {
    actAs(on, on.desk, now);
    const { invoiceId } = on.door.write('billing.draftInvoice', { jobId });
    on.door.write('billing.issueInvoice', { invoiceId, revision: 1 });
    settle(on, invoiceId, now);
    on.door.write('bookings.handOver', { jobId, ...carRecord(on, car, 0) });
    if (visit.kind.inspected && on.turns('redo')) redo(visit, now);
  });
}

/** A week later they see streaks: it is put right under warranty, and costs nothing. */
function redo(visit: Visit, nowMs: number): void {
  const { on, car } = visit;
  on.events.at(someDaysLater(on, nowMs, 6), (now) => {
    actAs(on, on.desk, now);
    const wish = 'Streaks on the roof in the sun.';
    const { jobId } = on.door.write('bookings.openRedo', { jobId: visit.jobId, wish });
    const stages = [
      plainStage('wash', 35, 'wash', ['wash']),
      plainStage('decontaminate', 20, 'wash', ['wash']),
      plainStage('clay', 20, 'correction', ['wash', 'correction'], ['ro']),
      plainStage('refine', 50, 'correction', ['correction'], ['ro']),
      plainStage('panelWipe', 10, 'correction', ['correction', 'protection'], ['ro']),
    ];
    on.door.write('bookings.setStages', { jobId, basis: 'inspected', stages });
    const agreed = bookFrom(on, jobId, now + DAY);
    on.events.at(agreed.dropOffMin * MINUTE, (then) => {
      actAs(on, on.desk, then);
      on.door.write('bookings.arrive', { jobId, ...carRecord(on, car, 60) });
      const todo = on.door.read('bookings.job', { jobId }).stages;
      const shift = { ...visit, jobId, stopAfter: null };
      workThrough(shift, todo, then, (ready) =>
        on.events.at(on.floor.nextOpen(Math.max(ready, agreed.pickUpMin * MINUTE)), (end) => {
          actAs(on, on.desk, end);
          on.door.write('bookings.handOver', { jobId, ...carRecord(on, car, 0) });
        }),
      );
    });
  });
}

/** Most pay at the counter, some by transfer in a week or two, a few late or not yet. */
function settle(on: Stage, invoiceId: InvoiceId, nowMs: number): void {
  const pay = (share: number) => (now: number) => {
    actAs(on, on.desk, now);
    const { owedMinor } = on.door.read('billing.readInvoice', { invoiceId });
    const amountMinor = Math.round(owedMinor * share) as Minor;
    const way = on.draw.pick(['card', 'cash', 'transfer'] as const);
    if (amountMinor > 0) on.door.write('billing.takePayment', { invoiceIds: [invoiceId], amountMinor, way });
  };
  const later = (fewest: number, most: number): void =>
    on.events.at(on.floor.nextOpen(nowMs + on.draw.int(fewest, most) * DAY + HOUR), pay(1));
  // Slow payers pay in the end; the latest of them are what the desk has to remind.
  if (on.turns('slowPayer')) later(60, 85);
  else if (on.turns('partPayer')) {
    pay(0.5)(nowMs);
    later(25, 40);
  } else if (on.draw.chance(0.13)) later(4, 13);
  else pay(1)(nowMs);
}
