import type { BatchDoor } from '../core/host/batchDoor.ts';
import { seeded } from '../core/shared/random.ts';
import { addLocalDays, instantOf, isoWeekday, localDayOf, localDaysBetween } from '../core/shared/time.ts';
import type { LocalDay } from '../core/shared/units.ts';
import { casting } from './cast.ts';
import { drawer } from './draw.ts';
import { events } from './events.ts';
import { floorOf, OPEN } from './floor.ts';
import { fillShelves, furnish, setUpShop, ZONE } from './frame.ts';
import { kindOf } from './kinds.ts';
import { keepShelves } from './shelves.ts';
import { actAs, DAY, HOUR, MINUTE, type Stage, takeCall } from './story.ts';
import { book } from './visit.ts';

export type DemoPlan = {
  /** The day around which the shop is busy. */
  readonly day: LocalDay;
  /** Days of history before it; the whole demo has two years. */
  readonly historyDays: number;
  /** Calls a week while the shop is as busy as it can be. */
  readonly callsPerWeek: number;
};
export const SEED = 20_260_101;

/** The demo's clock: 10:42 on its day, or that time on the next day the shop is open. */
export function demoNow(day: LocalDay): number {
  let open = day;
  while (!OPEN[isoWeekday(open)]) open = addLocalDays(open, 1);
  return instantOf(open, 642, ZONE);
}

/** Fills an empty shop file with the demo shop's past, and leaves it in the middle of a busy day. */
export function buildDemo(
  door: BatchDoor,
  plan: DemoPlan,
  progress: (done: number, total: number) => void,
): void {
  const firstDay = addLocalDays(plan.day, -plan.historyDays);
  const startMs = instantOf(firstDay, 480, ZONE);
  const nowMs = demoNow(plan.day);
  const draw = drawer(seeded(SEED));
  door.at(startMs);
  const staff = setUpShop(door, firstDay, plan.day);
  furnish(door, staff, plan.day);
  const shelves = fillShelves(door);
  const one = (role: string) => staff.find((p) => p.role === role) ?? staff[0];
  const [owner, desk] = [one('owner'), one('desk')];
  if (!owner || !desk) return;
  const on: Stage = {
    door,
    draw,
    events: events(),
    floor: floorOf(new Set()),
    owner,
    desk,
    technicians: staff.filter((p) => p.role === 'technician'),
  };
  const cast = casting(door, draw, Number(plan.day.slice(0, 4)));
  keepShelves(on, shelves, startMs + 7 * DAY, nowMs - 24 * DAY);
  for (const [callMs, leadDays] of calls(plan, firstDay, nowMs, on)) {
    on.events.at(callMs, (now) => {
      actAs(on, desk, now);
      const car = cast();
      const kind = kindOf(draw);
      const agreed = takeCall(on, car, kind, now);
      if (!agreed) return;
      const drift =
        1 + (0.1 * localDaysBetween(firstDay, localDayOf(now, ZONE))) / Math.max(1, plan.historyDays);
      book(
        { on, car, kind, ...agreed, jobFactor: draw.factor(0.2), drift, untilMs: nowMs },
        now,
        now + leadDays * DAY,
      );
    });
  }
  on.events.run(nowMs, (at) => progress(at - startMs, nowMs - startMs));
}

/** When people ring: in opening hours, more in spring and before winter; how many days ahead they think. */
function calls(
  plan: DemoPlan,
  firstDay: LocalDay,
  nowMs: number,
  on: Stage,
): readonly (readonly [number, number])[] {
  const found: (readonly [number, number])[] = [];
  for (let day = firstDay; instantOf(day, 0, ZONE) < nowMs; day = addLocalDays(day, 1)) {
    const hours = OPEN[isoWeekday(day)];
    if (!hours) continue;
    const month = Number(day.slice(5, 7));
    const season = [0.8, 0.8, 1.1, 1.25, 1.15, 1.05, 0.95, 0.9, 1, 1.1, 1.05, 0.85][month - 1] ?? 1;
    const mean = (plan.callsPerWeek / 5.5) * season * ((hours[1] - hours[0]) / 600);
    for (let left = mean; left > 0; left -= 1) {
      if (left < 1 && !on.draw.chance(left)) continue;
      const at = instantOf(day, hours[0], ZONE) + on.draw.int(0, hours[1] - hours[0] - 30) * MINUTE;
      if (at < nowMs - HOUR / 4) found.push([at, on.draw.int(1, 9)]);
    }
  }
  return found;
}
