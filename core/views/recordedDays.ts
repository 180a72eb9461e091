import type { DayRow } from '../bays/rules/hours.ts';
import type { ReadDb } from '../db/types.ts';
import type { HonestySums } from '../figures/rules/honesty.ts';
import type { LocalDay } from '../shared/units.ts';
import type { UtilizationParts } from '../shared/views/figures.ts';
import { baysSetup, EVER } from './baysSetup.ts';
import { type Far, furthest } from './furthest.ts';
import { recordedHonesty, SORTED_BY, type SortedBy } from './honestyGroups.ts';
import { hoursFrame } from './hoursFrame.ts';
import { recordedHours, workedIn } from './placeHours.ts';

/** What days came to, by the same functions that a question about them goes through: the rows of the kept tables. */
export type DaySums = {
  readonly hours: readonly (Omit<UtilizationParts, 'availableMin'> & {
    readonly day: LocalDay;
    readonly place: string;
    readonly workedMs: number;
  })[];
  readonly honesty: readonly (HonestySums & {
    readonly day: LocalDay;
    readonly sortedBy: SortedBy;
    readonly key: string;
  })[];
  readonly furthest: readonly (Far & { readonly day: LocalDay })[];
};

/** Sums of days that follow each other and are over, each on its own. Rows of nothing are left out. */
export function recordedDays(db: ReadDb, nowMs: number, days: readonly DayRow[]): DaySums {
  const cells = days.map((d) => ({ ...d, toDay: d.day }));
  const { groups, finished } = recordedHonesty(db, cells);
  return {
    hours: hoursOf(db, nowMs, cells),
    honesty: cells.flatMap(({ day }, i) =>
      SORTED_BY.flatMap((sortedBy) =>
        [...(groups[i]?.[sortedBy] ?? [])].map(([key, sums]) => ({ day, sortedBy, key, ...sums })),
      ),
    ),
    furthest: cells.flatMap(({ day }, i) => furthest(finished[i] ?? []).map((far) => ({ day, ...far }))),
  };
}

type Cell = DayRow & { readonly toDay: LocalDay };

function hoursOf(db: ReadDb, nowMs: number, cells: readonly Cell[]): DaySums['hours'] {
  const [first, last] = [cells[0], cells.at(-1)];
  if (!first || !last) return [];
  const range = { fromDay: first.day, toDay: last.day };
  const frame = hoursFrame({ db, now: nowMs as never, actor: null }, range, baysSetup(db, EVER));
  const worked = cells.map(
    (cell) => new Map<string, number>(workedIn(db, nowMs, cell).map((w) => [w.personId, w.ms])),
  );
  return [...recordedHours(db, nowMs, frame, cells)].flatMap(([place, parts]) =>
    parts.flatMap(({ availableMin, ...rest }, i) => {
      const [day, workedMs] = [cells[i]?.day, worked[i]?.get(place) ?? 0];
      return day && (availableMin > 0 || workedMs > 0) ? [{ day, place, ...rest, workedMs }] : [];
    }),
  );
}
