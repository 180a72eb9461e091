import type { PersonId } from '#core/shared/ids.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { BaysSetupView, ShiftView, TechnicianView } from '#core/shared/views/baysSetup.ts';
import type { Purpose } from '#core/shared/views/bookings.ts';
import type { WhatIfLimit } from '#core/shared/views/whatIf.ts';
import type { WhatIfChange } from '#core/shared/whatIfChange.ts';

const MIDNIGHT = 1440;
/** Before any shop. */
const FIRST_DAY = '1970-01-01' as LocalDay;

/** The shop's bays, hours and people with the change made. Longer hours end at midnight at the latest. */
export function changedSetup(setup: BaysSetupView, change: WhatIfChange): BaysSetupView {
  const { bay, technician } = change;
  const longer = change.longerMin ?? 0;
  const stay = technician?.hours !== 'late';
  const lastEnd = lastEndOf(setup);
  const hours = setup.hours.map((h) =>
    h.closeMin === lastEnd.get(`${h.kind}${h.weekday}`)
      ? { ...h, closeMin: Math.min(MIDNIGHT, h.closeMin + longer) }
      : h,
  );
  const added = technician ? addedPeople(setup, technician, longer) : [];
  const own = stay && longer > 0 ? setup.technicians.map((t) => longerDays(t, longer)) : setup.technicians;
  return {
    ...setup,
    hours,
    bays: bay ? [...setup.bays, ...addedBays(bay, firstDayOf(setup))] : setup.bays,
    technicians: [...own, ...(stay && longer > 0 ? added.map((t) => longerDays(t, longer)) : added)],
  };
}

/** When the shop, and the desk, close on each weekday. */
function lastEndOf(setup: BaysSetupView): ReadonlyMap<string, number> {
  const ends = new Map<string, number>();
  for (const h of setup.hours) {
    const key = `${h.kind}${h.weekday}`;
    ends.set(key, Math.max(ends.get(key) ?? 0, h.closeMin));
  }
  return ends;
}

/** Each day's last span is longer: who went home before closing still goes so much later. */
function longerDays(person: TechnicianView, longerMin: number): TechnicianView {
  const isLast = (s: ShiftView): boolean =>
    !person.shifts.some((other) => other.weekday === s.weekday && other.startMin > s.startMin);
  return {
    ...person,
    shifts: person.shifts.map((s) =>
      isLast(s) ? { ...s, endMin: Math.min(MIDNIGHT, s.endMin + longerMin) } : s,
    ),
  };
}

/** When the first bay or technician was there: what is added is there from then on. */
function firstDayOf({ bays, technicians }: BaysSetupView): LocalDay {
  const [first = FIRST_DAY] = [...bays, ...technicians].map((b) => b.startedDay).sort();
  return first;
}

function addedBays(bay: NonNullable<WhatIfChange['bay']>, startedDay: LocalDay): BaysSetupView['bays'] {
  return Array.from({ length: bay.count }, (_, i) => ({
    bayId: `new${i}` as BaysSetupView['bays'][number]['bayId'],
    ...{ name: '', kind: bay.bayKind, capacity: 1, setupMin: 0, startedDay, endedDay: null, revision: 1 },
  }));
}

/** New people have no absences on record: nobody knows theirs yet. */
function addedPeople(
  setup: BaysSetupView,
  { like, count, hours }: NonNullable<WhatIfChange['technician']>,
  longerMin: number,
): TechnicianView[] {
  const model = setup.technicians.find((t) => t.personId === like);
  if (!model) return [];
  const shifts = hours === 'late' ? lateShifts(setup, longerMin) : model.shifts;
  const startedDay = firstDayOf(setup);
  return Array.from({ length: count }, (_, i) => ({
    ...model,
    ...{ personId: `new${i}` as PersonId, shifts, startedDay, endedDay: null },
  }));
}

/** From closing on, as long as the shop stays open longer. */
function lateShifts(setup: BaysSetupView, longerMin: number): readonly ShiftView[] {
  return [...lastEndOf(setup)].flatMap(([key, end]) =>
    key.startsWith('shop') && end < MIDNIGHT
      ? [{ weekday: Number(key.slice(-1)), startMin: end, endMin: Math.min(MIDNIGHT, end + longerMin) }]
      : [],
  );
}

/** Shares of the kinds of jobs with one of them set; the others keep their weight among each other. */
export function changedShares(
  shares: ReadonlyMap<Purpose, number>,
  mix: WhatIfChange['mix'],
): ReadonlyMap<Purpose, number> {
  if (!mix) return shares;
  const wanted = mix.sharePpm / 1_000_000;
  const others = 1 - (shares.get(mix.purpose) ?? 0);
  return new Map(
    [...shares].map(([purpose, share]) => [
      purpose,
      purpose === mix.purpose ? wanted : others > 0 ? (share * (1 - wanted)) / others : 0,
    ]),
  );
}

/** What the runs cannot know about this question; the first and the last hold of all. */
export function limitsOf(change: WhatIfChange): readonly WhatIfLimit[] {
  const asks = (change.asksPpm ?? 0) === 0;
  const about: readonly (readonly [WhatIfLimit, boolean])[] = [
    ['turnedAway', true],
    ['sameAsks', asks],
    ['anyWait', !asks],
    ['price', (change.pricePpm ?? 0) !== 0],
    ['newPerson', change.technician !== undefined && change.technician !== null],
    ['newBay', change.bay !== undefined && change.bay !== null],
    ['longer', (change.longerMin ?? 0) > 0],
    ['mix', change.mix !== undefined && change.mix !== null],
    ['ownWaits', true],
    ['book', true],
    ['shopHeld', true],
  ];
  return about.flatMap(([limit, holds]) => (holds ? [limit] : []));
}
