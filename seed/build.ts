import type { BatchDoor } from '../core/host/batchDoor.ts';
import { seeded } from '../core/shared/random.ts';
import { addLocalDays, instantOf, isoWeekday, localDayOf, localDaysBetween } from '../core/shared/time.ts';
import type { LocalDay } from '../core/shared/units.ts';
import { callsOf } from './calls.ts';
import { casting } from './cast.ts';
import { CREW, isHoliday, OPEN, ZONE } from './crew.ts';
import { drawer } from './draw.ts';
import { events } from './events.ts';
import { type Floor, floorOf } from './floor.ts';
import { fillShelves, furnish, type Staff, setUpShop } from './frame.ts';
import { type Kind, kindOf, SMALL } from './kinds.ts';
import { lastHours } from './lastHours.ts';
import { rareThings } from './rare.ts';
import { keepShelves } from './shelves.ts';
import { DAY, HOUR, MINUTE, type Stage, takeCall } from './story.ts';
import { keepTill } from './till.ts';
import { turns } from './turns.ts';
import { book } from './visit.ts';

export type DemoPlan = {
  /** When the story stops: the demo is opened then. */
  readonly nowMs: number;
  /** Days of history before it; the whole demo has two years. */
  readonly historyDays: number;
};
export const SEED = 20_260_101;
export const TWO_YEARS = 730;
/** Of these some say no, cancel or do not come: about 1,200 jobs are done in two years. */
const CALLS_A_WEEK = 13;

/** 10:42 on a day, or at that time on the next day the shop is open. */
export function demoNow(day: LocalDay): number {
  let open = day;
  while (isHoliday(open) || !OPEN.some((w) => w.weekday === isoWeekday(open))) open = addLocalDays(open, 1);
  return instantOf(open, 642, ZONE);
}

/** Fills an empty shop file with the demo shop's past, and leaves it in the middle of a busy day. */
export function buildDemo(
  door: BatchDoor,
  plan: DemoPlan,
  progress: (done: number, total: number) => void,
): void {
  const day = localDayOf(plan.nowMs, ZONE);
  const firstDay = addLocalDays(day, -plan.historyDays);
  const startMs = instantOf(firstDay, 480, ZONE);
  const draw = drawer(seeded(SEED));
  door.at(startMs);
  const staff = setUpShop(door, firstDay, day);
  furnish(door, staff, firstDay, day);
  const shelves = fillShelves(door);
  const [owner, desk] = [one(staff, 'owner'), one(staff, 'desk')];
  if (!owner || !desk) return;
  const technicians = staff.filter((p) => p.role === 'technician');
  const on: Stage = {
    ...{ door, draw, owner, desk, technicians, events: events(startMs), turns: turns() },
    driven: new Map(),
    ...{ floor: floorFor(technicians, day), untilMs: plan.nowMs, today: day },
  };
  keepShelves(on, shelves, startMs);
  keepTill(on, startMs);
  const firstYear = Number(firstDay.slice(0, 4));
  const cast = casting(door, draw, firstYear);
  const ring: Ring = (kind, now, fromMs) => {
    const agreed = takeCall(on, cast, kind, now);
    const drift =
      1 + (0.08 * localDaysBetween(firstDay, localDayOf(now, ZONE))) / Math.max(1, plan.historyDays);
    if (agreed) book({ on, kind, ...agreed, jobFactor: draw.factor(0.18), drift }, now, fromMs);
  };
  for (const call of callsOf({ fromDay: firstDay, untilMs: plan.nowMs, perWeek: CALLS_A_WEEK }, draw))
    on.events.at(call.atMs, (now) => ring(kindOf(draw), now, now + call.leadDays * DAY));
  smallThings(on, ring);
  lastHours(on, cast, shelves);
  rareThings(on, shelves, firstYear);
  on.events.run(plan.nowMs, (at) => progress(at - startMs, plan.nowMs - startMs));
}

type Ring = (kind: Kind, now: number, fromMs: number) => void;

/** Small things for the demo's own day, asked for the day before. */
function smallThings({ events, floor, untilMs }: Stage, ring: Ring): void {
  SMALL.forEach((kind, i) => {
    const callMs = floor.nextOpen(untilMs - 30 * HOUR) + i * 17 * MINUTE;
    if (callMs < untilMs) events.at(callMs, (now) => ring(kind, now, untilMs + (i * 70 - 220) * MINUTE));
  });
}

function one(staff: readonly Staff[], role: Staff['role']): Staff | undefined {
  return staff.find((p) => p.role === role);
}

/** Who is there when: shifts, holidays, and the days on which the shop is shut. */
function floorFor(technicians: readonly Staff[], day: LocalDay): Floor {
  const people = technicians.flatMap((person) => {
    const worker = CREW.find((c) => c.name === person.name);
    if (!worker) return [];
    const away = worker.away.map(([before, days]): readonly [LocalDay, LocalDay] => [
      addLocalDays(day, -before),
      addLocalDays(day, days - before),
    ]);
    const off = (d: LocalDay): boolean => away.some(([from, to]) => from <= d && d < to);
    return [[person.id, { week: worker.shifts, off }] as const];
  });
  return floorOf(isHoliday, new Map(people));
}
