import { calendarOf, intersect, spansOf } from '#core/bays/rules/calendar.ts';
import { closedDays, type DayRow, shiftHours, weekCalendar } from '#core/bays/rules/hours.ts';
import { placesFor } from '#core/estimate/rules/stageShape.ts';
import type { BaysSetupView } from '#core/shared/views/baysSetup.ts';
import type { PastStage } from './whatIfAsks.ts';
import type { SimPlace, SimShop } from './whatIfShop.ts';

/**
 * The desk calls in the next car when no other here waits for hands or a bay: more cars would not be done sooner, and
 * stood in the way. Common practice, no source.
 */
const MOST_WAITING = 1;

/**
 * The shop laid over the days: hours less closures and absences, as they were. A bay that was ended by the last day, or
 * begins after it, is left out; one that was added in between is shut until then, but for the first of its kind: work
 * for which there was no place would wait for it from the beginning. Which is the first is told by the bays of `own`,
 * the shop as it was: one more, asked about, shuts none of them. A yard is a place for each car it holds.
 */
export function simShopOf(
  setup: BaysSetupView,
  days: readonly DayRow[],
  zone: string,
  own: BaysSetupView = setup,
): SimShop {
  const closed = closedDays(days, setup.closures);
  const weekly = (kind: 'shop' | 'desk') =>
    setup.hours
      .filter((h) => h.kind === kind)
      .map((h) => ({ weekday: h.weekday, startMin: h.openMin, endMin: h.closeMin }));
  const open = weekCalendar(days, weekly('shop'), zone, closed);
  const people = setup.technicians.map((t) => ({
    skills: t.skills,
    pace: t.speedPpm / 1_000_000,
    hours: intersect(open, shiftHours(t, days, zone, setup)),
  }));
  const lastDay = days.at(-1)?.day ?? '';
  const there = (b: BaysSetupView['bays'][number]): boolean =>
    b.startedDay <= lastDay && (b.endedDay === null || b.endedDay >= lastDay);
  const known = own.bays.filter(there);
  return {
    open,
    desk: weekCalendar(days, weekly('desk'), zone, closed),
    places: setup.bays.filter(there).flatMap((b) => placesOf(b, known, setup, days)),
    people,
    mostWaiting: MOST_WAITING,
  };
}

function placesOf(
  bay: BaysSetupView['bays'][number],
  known: BaysSetupView['bays'],
  setup: BaysSetupView,
  days: readonly DayRow[],
): readonly SimPlace[] {
  const later = known.some((b) => b.kind === bay.kind && b.startedDay < bay.startedDay);
  const closures = setup.closures.filter((c) => c.bayId === bay.bayId);
  const isShut = ({ day }: DayRow): boolean =>
    (later && day < bay.startedDay) || closures.some((c) => c.fromDay <= day && day <= c.toDay);
  const shut = spansOf(calendarOf(days.filter(isShut)));
  return Array.from({ length: bay.capacity }, () => ({ kind: bay.kind, shut }));
}

/**
 * Stages as this shop would do them: in the usual places for them that it has, then where they were done. Where nobody
 * has the skill, whoever is there does it; and no more people are at it than can, for as much longer.
 */
export function doable(stages: readonly PastStage[], shop: SimShop): readonly PastStage[] {
  const has = [...new Set(shop.places.map((p) => p.kind))];
  return stages.map((stage) => {
    const able = shop.people.filter((p) => p.skills.includes(stage.skill)).length;
    const crew = Math.min(stage.crew, Math.max(1, able));
    const recorded = stage.kinds.filter((k) => has.includes(k));
    return {
      ...stage,
      kinds: [...new Set([...placesFor(stage.kind, has), ...recorded])],
      skill: able > 0 ? stage.skill : (shop.people[0]?.skills[0] ?? stage.skill),
      crew,
      labourMin: crew > 0 ? (stage.labourMin * stage.crew) / crew : stage.labourMin,
    };
  });
}
