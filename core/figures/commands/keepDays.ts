import { calendarOf, spansOf } from '../../bays/rules/calendar.ts';
import { type DayRow, daysBetween } from '../../bays/rules/hours.ts';
import { atomically } from '../../db/atomic.ts';
import { oneRow } from '../../db/prepared.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import { addLocalDays, localDayOf } from '../../shared/time.ts';
import { keptDays, staleSpans } from '../../views/keptDays.ts';
import { recordedDays } from '../../views/recordedDays.ts';
import { shopIfSetUp } from '../../views/shop.ts';
import { saveDays, takeOut } from '../store/keptDays.ts';

/** So many days are written in at once: a hundredth of a second or two, for which a command may have to wait. */
const AT_ONCE = 20;

/**
 * Writes some past days in that are not kept, or no longer hold; the latest first, since they are asked about most.
 * Whoever asks while it is not through gets the same answer from the records, only later. Whether days are left.
 */
export function keepDays(db: WriteDb, nowMs: number): boolean {
  const days = pastDays(db, nowMs);
  if (days.length === 0 || wanting(db, days, nowMs).length === 0) return false;
  return atomically(db, () => {
    // Only now do the days that no longer hold lose their place: none is taken out without another being written in.
    takeOut(db, spansOf(calendarOf(staleSpans(db))));
    const left = wanting(db, days, nowMs);
    const some = latestRun(left);
    saveDays(
      db,
      some.map(({ day, startMin, endMin }) => ({ day, startMin, endMin })),
      recordedDays(db, nowMs, some),
    );
    return left.length > some.length;
  });
}

/** From the day on which the shop was set up to yesterday. */
function pastDays(db: ReadDb, nowMs: number): readonly DayRow[] {
  const zone = shopIfSetUp(db)?.zone;
  const first = oneRow<{ atMs: number }>(db, 'SELECT at_ms AS atMs FROM journal ORDER BY id LIMIT 1');
  if (!zone || !first) return [];
  return daysBetween(localDayOf(first.atMs, zone), addLocalDays(localDayOf(nowMs, zone), -1), zone);
}

function wanting(db: ReadDb, days: readonly DayRow[], nowMs: number): readonly DayRow[] {
  const kept = keptDays(db, days, Math.floor(nowMs / 60_000));
  return days.filter((d) => !kept.has(d.day));
}

/** The last of the days, as far back as they follow each other. */
function latestRun(days: readonly DayRow[]): readonly DayRow[] {
  let from = days.length - 1;
  while (from > 0 && days.length - from < AT_ONCE && days[from - 1]?.endMin === days[from]?.startMin)
    from -= 1;
  return days.slice(Math.max(0, from));
}
