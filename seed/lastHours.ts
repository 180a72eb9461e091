import type { StageId } from '../core/shared/ids.ts';
import type { StagePlan } from '../core/shared/stagePlan.ts';
import type { Minor } from '../core/shared/units.ts';
import type { Purpose } from '../core/shared/views/bookings.ts';
import type { Skill, StageKind } from '../core/shared/vocabulary.ts';
import type { Car } from './cast.ts';
import { bookWith, plainStage } from './extras.ts';
import type { Floor, Stretch } from './floor.ts';
import type { Shelf, Staff } from './frame.ts';
import { TOWN } from './names.ts';
import { actAs, carRecord, DAY, HOUR, MINUTE, type Stage } from './story.ts';

/** What the demo's day shows for certain, whatever chance brings: a stage that runs over, a cure, a car to fetch. */
type Scene = {
  readonly purpose: Exclude<Purpose, 'redo'>;
  readonly wish: string;
  readonly skill: Skill;
  readonly startMs: number;
  /** Stages with the minutes they really take; the last one that is begun may still run. */
  readonly steps: readonly (readonly [plan: StagePlan, minutes: number | 'runs' | 'waits'])[];
  /** Promised after the planned finish. */
  readonly marginMin: number;
};
/** The hours the shop was open last, and the last moment of work in them. */
type LastWork = { readonly span: Stretch; readonly atMs: number };

/** The scenes begin so long before the last moment of work. */
const SCENE_MIN = 100;
/** They rang up so long before: even a shop that is full for weeks has the very hour free then. */
const ASKED_DAYS = 45;

/** Where the shop is closed now, its last hours are told: the evening before, the Saturday before a Sunday. */
function lastWork(floor: Floor, nowMs: number): LastWork {
  const span = floor.openBefore(nowMs);
  const atMs = Math.min(nowMs, span.endMs);
  if (atMs - span.startMs >= SCENE_MIN * MINUTE) return { span, atMs };
  const earlier = floor.openBefore(span.startMs - 1);
  return { span: earlier, atMs: earlier.endMs };
}

/** Lays the scenes of the last hours, and what somebody at the desk has to look after. */
export function lastHours(on: Stage, cast: () => Car, shelves: readonly Shelf[]): void {
  const last = lastWork(on.floor, on.untilMs);
  const before = on.floor.openBefore(last.span.startMs - 1);
  for (const scene of [runsOver(last), cures(last), toFetch(last, before)]) lay(on, cast, scene, last);
  visits(on, cast, last);
  unpaid(on);
  vouchers(on);
  spilt(on, shelves, before);
}

const PAINTED = ['bo', 'ro'] as const;

/** Refining takes more than twice as long as its range allows: the promise of today is past, or as good as past. */
function runsOver({ atMs }: LastWork): Scene {
  // One person in one bay: the plan is as short as the work.
  const stage = (kind: StageKind, minutes: number): StagePlan =>
    plainStage(kind, minutes, 'correction', ['correction'], PAINTED);
  return {
    ...{ purpose: 'correction', wish: 'Dull on the bonnet and the roof.', skill: 'correction', marginMin: 0 },
    startMs: atMs - SCENE_MIN * MINUTE,
    steps: [
      [stage('wash', 15), 14],
      [stage('decontaminate', 10), 9],
      [stage('clay', 10), 11],
      [stage('refine', 20), 'runs'],
      [stage('panelWipe', 5), 'waits'],
    ],
  };
}

const CURE: StagePlan = {
  ...plainStage('cure', 1, 'protection', ['correction']),
  ...{ estimatedMin: 0, p20Min: 0, p50Min: 0, p80Min: 0, p95Min: 0, mu: 0, sigma: 0 },
  ...{ crew: 0, dwellMin: 720 },
};

/** A coating went on an hour ago. */
function cures({ atMs }: LastWork): Scene {
  return {
    ...{ purpose: 'protection', wish: 'A coating before the winter.', skill: 'protection', marginMin: 240 },
    startMs: atMs - SCENE_MIN * MINUTE,
    steps: [
      [plainStage('wash', 15, 'protection', ['correction']), 16],
      [plainStage('panelWipe', 10, 'protection', ['correction']), 9],
      [plainStage('protect', 40, 'protection', ['correction']), 38],
      [CURE, 'waits'],
    ],
  };
}

/** Washed the day before, to be fetched today. */
function toFetch({ atMs }: LastWork, before: Stretch): Scene {
  const startMs = before.endMs - 90 * MINUTE;
  const untilFetched = Math.round((atMs + HOUR - startMs) / MINUTE) - 30;
  return {
    ...{ purpose: 'washOnly', wish: 'Clean for the weekend.', skill: 'wash', startMs },
    marginMin: Math.min(2880, Math.max(0, untilFetched)),
    steps: [[plainStage('wash', 25, 'wash', ['wash']), 26]],
  };
}

function lay(on: Stage, cast: () => Car, scene: Scene, last: LastWork): void {
  on.events.at(on.floor.nextOpen(scene.startMs - ASKED_DAYS * DAY) + MINUTE, (now) => {
    actAs(on, on.desk, now);
    const car = cast();
    const { customerId, vehicleId } = car;
    const { purpose, wish } = scene;
    const { jobId } = on.door.write('bookings.openJob', { customerId, vehicleId, purpose, wish });
    const stages = scene.steps.map(([plan]) => plan);
    const { stageIds } = on.door.write('bookings.setStages', { jobId, basis: 'agreed', stages });
    const { dropOffMin } = bookWith(on, jobId, scene.startMs - 10 * MINUTE, scene.marginMin);
    const comeMs = Math.min(dropOffMin * MINUTE, scene.startMs);
    on.events.at(comeMs, (then) => {
      actAs(on, on.desk, then);
      on.door.write('bookings.arrive', { jobId, ...carRecord(on, car, on.draw.int(8000, 180_000)) });
    });
    act(on, scene, stageIds, last);
  });
}

/** Somebody who is there and free keeps the time clear and works the steps; else the owner lends a hand. */
function act(on: Stage, scene: Scene, stageIds: readonly StageId[], last: LastWork): void {
  let who: Staff = on.owner;
  on.events.at(Math.max(scene.startMs - 2 * HOUR, on.floor.openBefore(scene.startMs).startMs - 1), () => {
    const able = on.technicians.filter((t) => t.skills.includes(scene.skill));
    who = able.find((t) => on.floor.startFor(t.id, scene.startMs) <= scene.startMs) ?? on.owner;
    on.floor.hold(who.id, last.atMs);
  });
  let atMs = scene.startMs;
  for (const [i, [, minutes]] of scene.steps.entries()) {
    const stageId = stageIds[i];
    if (minutes === 'waits' || !stageId) return;
    const step =
      (name: 'bookings.startStage' | 'bookings.pauseStage' | 'bookings.finishStage') => (now: number) => {
        actAs(on, who, now);
        on.door.write(name, { stageId });
      };
    on.events.at(atMs, step('bookings.startStage'));
    if (minutes === 'runs') {
      if (last.atMs < on.untilMs) on.events.at(last.atMs, step('bookings.pauseStage'));
      return;
    }
    on.events.at(atMs + minutes * MINUTE, step('bookings.finishStage'));
    atMs += (minutes + 1) * MINUTE;
  }
}

/** People who want a look at their paint first: one was due today and has not rung, others are still to come. */
function visits(on: Stage, cast: () => Car, last: LastWork): void {
  const due = [last.atMs - 80 * MINUTE, on.untilMs + HOUR / 2, on.untilMs + DAY, on.untilMs + 3 * DAY];
  for (const [i, dueMs] of due.entries()) {
    on.events.at(on.floor.nextOpen(dueMs - ASKED_DAYS * DAY) + i * MINUTE, (now) => {
      actAs(on, on.desk, now);
      const { customerId, vehicleId } = cast();
      const wish = 'Wants to know what can be done before deciding.';
      const { jobId } = on.door.write('bookings.openJob', {
        ...{ customerId, vehicleId, purpose: 'inspectionVisit', wish },
      });
      const stages = [plainStage('inspection', 30, 'inspection', ['wash', 'correction', 'protection'])];
      on.door.write('bookings.setStages', { jobId, basis: 'provisional', stages });
      bookWith(on, jobId, dueMs, 60);
    });
  }
}

/** A firm bought care goods and has not paid, though it should have within the week. */
function unpaid(on: Stage): void {
  on.events.at(on.floor.nextOpen(on.untilMs - 11 * DAY) + HOUR, (now) => {
    actAs(on, on.desk, now);
    const facts = { kind: 'firm', name: `${TOWN} Volunteer Drivers`, phone: '0555 018 114' } as const;
    const { id: customerId } = on.door.write('people.addCustomer', { ...facts, termsDays: 7 });
    const lines = [{ text: 'Care set: shampoo, mitt, drying towel', quantity: 3, priceMinor: 3900 as Minor }];
    const { invoiceId } = on.door.write('billing.draftOther', { customerId, lines });
    on.door.write('billing.issueInvoice', { invoiceId, revision: 1 });
  });
}

/** Two gift vouchers were bought in these weeks, one with a name on it. */
function vouchers(on: Stage): void {
  for (const [i, forName] of ['Ines', ''].entries())
    on.events.at(on.floor.nextOpen(on.untilMs - (9 - 5 * i) * DAY) + 2 * HOUR, (now) => {
      actAs(on, on.desk, now);
      const buyer = on.door.read('people.findCustomers', { limit: 9 })[3 + i];
      if (!buyer) return;
      const amountMinor = (i === 0 ? 15_000 : 8000) as Minor;
      on.door.write('billing.sellVoucher', { customerId: buyer.id, amountMinor, way: 'card', forName });
    });
}

/** What every car needs has run out over the floor, but for the dregs. */
function spilt(on: Stage, shelves: readonly Shelf[], before: Stretch): void {
  const shelf = shelves.find((s) => s.item.material === 'shampoo');
  if (!shelf) return;
  on.events.at(before.endMs - HOUR / 2, (now) => {
    actAs(on, on.desk, now);
    const { itemId } = shelf;
    const onHand = on.door.read('stock.listItems', {}).find((row) => row.id === itemId)?.onHand ?? 0;
    const amount = onHand - 20_000;
    if (amount > 0) on.door.write('stock.waste', { itemId, amount, why: 'the canister fell over' });
  });
}
