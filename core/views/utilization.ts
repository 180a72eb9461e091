import type { Calendar } from '../bays/rules/calendar.ts';
import type { ReadCtx } from '../context.ts';
import { allRows } from '../db/prepared.ts';
import { type Period, periodsOf } from '../figures/rules/periods.ts';
import { hoursByCell, sumParts } from '../figures/rules/utilization.ts';
import type { PersonId } from '../shared/ids.ts';
import type {
  PeriodKind,
  PersonHoursRow,
  UtilizationCell,
  UtilizationParts,
  UtilizationView,
} from '../shared/views/figures.ts';
import type { BayRecord } from './bayRecord.ts';
import {
  type DayRange,
  type HoursFrame,
  hoursFrame,
  openHours,
  placeRecord,
  shiftsOf,
} from './hoursFrame.ts';
import { inHandOf } from './inHandOf.ts';

/**
 * How the open hours of every bay and the shifts of every technician were spent, by day, week or month, since the shop
 * was set up and up to now; the yard is a place to stand, not to work, and is left out.
 */
export function utilizationView(
  ctx: ReadCtx,
  asked: DayRange & { readonly by: PeriodKind },
): UtilizationView {
  const { fromDay, toDay, by } = asked;
  const frame = hoursFrame(ctx, asked);
  const periods = periodsOf(frame.days, by);
  const records = Map.groupBy(frame.records, (r) => r.bayId);
  const bays = frame.setup.bays
    .filter((bay) => bay.kind !== 'yard')
    .map((bay) => ({
      bayId: bay.bayId,
      name: bay.name,
      ...cellsOf(openHours(bay, frame), periods, records.get(bay.bayId) ?? []),
    }));
  const people = peopleRows(ctx, frame, periods);
  return { fromDay, toDay, by, bays, people, total: sumParts(bays.map((b) => b.total)) };
}

function cellsOf(
  open: Calendar,
  periods: readonly Period[],
  records: readonly BayRecord[],
): { readonly cells: readonly UtilizationCell[]; readonly total: UtilizationParts } {
  const edges = periods.map((p) => p.startMin);
  const parts = hoursByCell(placeRecord(open, records), [...edges, periods.at(-1)?.endMin ?? 0]);
  const cells = periods.map(({ day, toDay, startMin, endMin }, i): UtilizationCell => {
    const of = parts[i] ?? sumParts([]);
    return { ...of, day, toDay, closedMin: endMin - startMin - of.availableMin };
  });
  return { cells, total: sumParts(parts) };
}

const WORKED = `SELECT person_id AS personId, sum(min(coalesce(end_ms, :nowMs), :toMs) - max(start_ms, :fromMs)) / 60000 AS minutes
  FROM (SELECT person_id, start_ms, end_ms FROM stage_work WHERE end_ms > :fromMs AND start_ms < :toMs
    UNION ALL SELECT person_id, start_ms, end_ms FROM stage_work WHERE end_ms IS NULL AND start_ms < :toMs AND :nowMs > :fromMs)
  GROUP BY person_id`;

function peopleRows(ctx: ReadCtx, frame: HoursFrame, periods: readonly Period[]): readonly PersonHoursRow[] {
  const { fromMin, toMin } = frame.span;
  const asked = { nowMs: ctx.now, fromMs: fromMin * 60_000, toMs: toMin * 60_000 };
  const rows = allRows<{ personId: PersonId; minutes: number }>(ctx.db, WORKED, asked);
  const worked = new Map(rows.map((r) => [r.personId, r.minutes]));
  const recordsOf = inHandOf(ctx.db, frame.records, { fromMin, toMin, nowMs: ctx.now });
  return frame.setup.technicians.map((who) => ({
    personId: who.personId,
    name: who.name,
    workedMin: Math.floor(worked.get(who.personId) ?? 0),
    ...cellsOf(shiftsOf(who, frame), periods, recordsOf(who.personId)),
  }));
}
