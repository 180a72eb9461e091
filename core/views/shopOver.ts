import { type Calendar, intersect, type Span } from '../bays/rules/calendar.ts';
import {
  closedDays,
  type DayRow,
  daysBetween,
  shiftHours,
  slotsOf,
  weekCalendar,
} from '../bays/rules/hours.ts';
import type { Board, Place, Technician } from '../bays/rules/model.ts';
import type { BayId } from '../shared/ids.ts';
import { addLocalDays, minuteOf } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import type { BaysSetupView } from '../shared/views/baysSetup.ts';
import type { Shop } from '../shared/views/shop.ts';

/** The days that hours are laid over, both included, and the last one that is planned on. */
type Days = { readonly from: LocalDay; readonly to: LocalDay; readonly lastDay: LocalDay };
/** What of a board hangs on the shop alone, and the minutes its days begin and end. */
type Laid = Omit<Board, 'nowMin' | 'jobs' | 'plans'> & { readonly fromMin: number; readonly toMin: number };

let last: { readonly key: string; readonly laid: Laid } | null = null;

/**
 * Hours, closures and absences laid over days. A board is asked for again and again on one day, at each step of a drag
 * and for each booking, while the shop stays as it is: what was laid last is kept.
 */
export function shopOver(days: Days, setup: BaysSetupView, shop: Shop): Laid {
  const { zone, settings } = shop;
  const key = JSON.stringify([days, zone, settings.promises, setup]);
  if (last?.key !== key) last = { key, laid: lay(days, setup, shop) };
  return last.laid;
}

function lay({ from, to, lastDay }: Days, setup: BaysSetupView, { zone, settings }: Shop): Laid {
  const days = daysBetween(from, to, zone);
  const closed = closedDays(days, setup.closures);
  const open = weekCalendar(days, weekly(setup, 'shop'), zone, closed);
  const desk = weekCalendar(days, weekly(setup, 'desk'), zone, closed);
  const toMin = days.at(-1)?.endMin ?? 0;
  return {
    fromMin: days[0]?.startMin ?? 0,
    toMin,
    horizonMin: minuteOf(addLocalDays(lastDay, 1), 0, zone),
    open,
    desk,
    slots: slotsOf(desk, settings.promises.slotMin),
    moveMin: settings.promises.moveMin,
    places: setup.bays.map((b) => placeOf(b, setup, days, toMin)),
    technicians: setup.technicians.map((t) => technicianOf(t, setup, days, open, zone)),
  };
}

function weekly(setup: BaysSetupView, kind: 'shop' | 'desk') {
  return setup.hours
    .filter((h) => h.kind === kind)
    .map((h) => ({ weekday: h.weekday, startMin: h.openMin, endMin: h.closeMin }));
}

function placeOf(
  bay: BaysSetupView['bays'][number],
  setup: BaysSetupView,
  days: readonly DayRow[],
  farMin: number,
): Place {
  const closed: Span[] = [];
  for (const c of setup.closures) {
    if (c.bayId !== bay.bayId) continue;
    const within = days.filter((d) => c.fromDay <= d.day && d.day <= c.toDay);
    const [first, last] = [within[0], within.at(-1)];
    if (first && last) closed.push({ startMin: first.startMin, endMin: last.endMin });
  }
  const there = days.find((d) => d.day >= bay.startedDay)?.startMin ?? farMin;
  const first = days[0]?.startMin ?? farMin;
  if (first < there) closed.push({ startMin: first, endMin: there });
  const last = bay.endedDay;
  const after = last === null ? undefined : days.find((d) => d.day > last);
  const endsMin = after?.startMin ?? farMin;
  const { bayId: id, name, kind, capacity, setupMin } = bay;
  return { id, name, kind, capacity, setupMin, dustWith: inDustOf(bay, setup), closed, endsMin };
}

/** Bays that share their dust with a bay; the yard lies outside. */
function inDustOf({ bayId, kind }: BaysSetupView['bays'][number], setup: BaysSetupView): readonly BayId[] {
  if (kind === 'yard') return [];
  const all = setup.dust.some((d) => d.bayA === null);
  const others = setup.bays.filter((b) => b.bayId !== bayId && b.kind !== 'yard').map((b) => b.bayId);
  const named = setup.dust.flatMap((d) => (d.bayA === bayId ? [d.bayB] : d.bayB === bayId ? [d.bayA] : []));
  return others.filter((id) => all || named.includes(id));
}

function technicianOf(
  t: BaysSetupView['technicians'][number],
  setup: BaysSetupView,
  days: readonly DayRow[],
  open: Calendar,
  zone: string,
): Technician {
  const hours = intersect(open, shiftHours(t, days, zone, setup));
  return { id: t.personId, name: t.name, skills: t.skills, speedPpm: t.speedPpm, hours };
}
