import { daysBetween } from '../bays/rules/hours.ts';
import type { ReadCtx } from '../context.ts';
import { type Period, periodsOf } from '../figures/rules/periods.ts';
import { addParts, noParts, sumParts } from '../figures/rules/utilization.ts';
import type { BaysSetupView } from '../shared/views/baysSetup.ts';
import type {
  PeriodKind,
  UtilizationCell,
  UtilizationParts,
  UtilizationView,
} from '../shared/views/figures.ts';
import { baysSetup } from './baysSetup.ts';
import { type DayRange, hoursFrame } from './hoursFrame.ts';
import { cutsOf, type DayRun, dayRuns } from './keptDays.ts';
import { keptHours, recordedHours, workedIn } from './placeHours.ts';
import { shopOf } from './shop.ts';

/**
 * How the open hours of every bay and the shifts of every technician were spent, by day, week or month, since the shop
 * was set up and up to now; the yard is a place to stand, not to work, and is left out.
 */
export function utilizationView(
  ctx: ReadCtx,
  asked: DayRange & { readonly by: PeriodKind },
): UtilizationView {
  const { fromDay, toDay, by } = asked;
  const days = daysBetween(fromDay, toDay, shopOf(ctx.db).zone);
  const periods = periodsOf(days, by);
  const setup = baysSetup(ctx.db, fromDay);
  const hours = tallyOf(periods.length);
  for (const run of dayRuns(ctx.db, days, Math.floor(ctx.now / 60_000)))
    addRun(ctx, hours, run, { setup, periods });
  const bays = setup.bays
    .filter((bay) => bay.kind !== 'yard')
    .map(({ bayId, name }) => ({ bayId, name, ...cellsOf(periods, hours.of(bayId).cells) }));
  const people = setup.technicians.map(({ personId, name }) => {
    const { cells, workedMs } = hours.of(personId);
    return { personId, name, workedMin: Math.floor(workedMs / 60_000), ...cellsOf(periods, cells) };
  });
  return { fromDay, toDay, by, bays, people, total: sumParts(bays.map((b) => b.total)) };
}

type Place = { readonly cells: ReturnType<typeof noParts>[]; workedMs: number };
type Tally = { of(place: string): Place };
/** What comes together for each place, over as many cells. */
function tallyOf(cells: number): Tally {
  const places = new Map<string, Place>();
  return {
    of: (id) => {
      const place = places.get(id) ?? { cells: Array.from({ length: cells }, noParts), workedMs: 0 };
      places.set(id, place);
      return place;
    },
  };
}

type Asked = { readonly setup: BaysSetupView; readonly periods: readonly Period[] };
/** Days that are kept are read, all others worked out. */
function addRun(ctx: ReadCtx, hours: Tally, { kept, days }: DayRun, { setup, periods }: Asked): void {
  const cuts = cutsOf(days, periods);
  const add = (place: string, i: number | undefined, parts: UtilizationParts): void => {
    const into = hours.of(place).cells[i ?? -1];
    if (into) addParts(into, parts);
  };
  const [first, last] = [days[0], days.at(-1)];
  if (!first || !last) return;
  if (kept) {
    for (const { i, place, workedMs, ...parts } of keptHours(ctx.db, cuts)) {
      const { attendedMin, cureMin, waitingMin, blockedMin, idleMin } = parts;
      add(place, i, { ...parts, availableMin: attendedMin + cureMin + waitingMin + blockedMin + idleMin });
      hours.of(place).workedMs += workedMs;
    }
    return;
  }
  const frame = hoursFrame(ctx, { fromDay: first.day, toDay: last.day }, setup);
  for (const [place, cells] of recordedHours(ctx.db, ctx.now, frame, cuts))
    for (const [k, parts] of cells.entries()) add(place, cuts[k]?.i, parts);
  for (const { personId, ms } of workedIn(ctx.db, ctx.now, { startMin: first.startMin, endMin: last.endMin }))
    hours.of(personId).workedMs += ms;
}

function cellsOf(
  periods: readonly Period[],
  parts: readonly UtilizationParts[],
): { readonly cells: readonly UtilizationCell[]; readonly total: UtilizationParts } {
  const cells = periods.map(({ day, toDay, startMin, endMin }, i): UtilizationCell => {
    const of = parts[i] ?? noParts();
    return { ...of, day, toDay, closedMin: endMin - startMin - of.availableMin };
  });
  return { cells, total: sumParts(parts) };
}
