import type { Calendar } from '../bays/rules/calendar.ts';
import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { Period } from '../figures/rules/periods.ts';
import { hoursByCell } from '../figures/rules/utilization.ts';
import type { PersonId } from '../shared/ids.ts';
import type { UtilizationParts } from '../shared/views/figures.ts';
import { type BayRecord, WORKED } from './bayRecord.ts';
import { type HoursFrame, openHours, placeRecord, shiftsOf } from './hoursFrame.ts';
import { inHandOf } from './inHandOf.ts';
import { asPieces, type Cut } from './keptDays.ts';

/** The minutes of each bay and technician in each of some periods of a frame that follow each other. */
export type HoursByPlace = ReadonlyMap<string, readonly UtilizationParts[]>;

/** From the records of the frame; the yard is a place to stand, not to work, and is left out. */
export function recordedHours(
  db: ReadDb,
  nowMs: number,
  frame: HoursFrame,
  cells: readonly Period[],
): HoursByPlace {
  const edges = [...cells.map((p) => p.startMin), cells.at(-1)?.endMin ?? 0];
  const hours = (open: Calendar, records: readonly BayRecord[]): readonly UtilizationParts[] =>
    hoursByCell(placeRecord(open, records), edges);
  const records = Map.groupBy(frame.records, (r) => r.bayId);
  const recordsOf = inHandOf(db, frame.records, nowMs);
  const bays = frame.setup.bays.filter((bay) => bay.kind !== 'yard');
  return new Map<string, readonly UtilizationParts[]>([
    ...bays.map((bay) => [bay.bayId, hours(openHours(bay, frame), records.get(bay.bayId) ?? [])] as const),
    ...frame.setup.technicians.map(
      (who) => [who.personId, hours(shiftsOf(who, frame), recordsOf(who.personId))] as const,
    ),
  ]);
}

const WORKED_BY = `SELECT person_id AS personId, sum(min(end_ms, :toMs) - max(start_ms, :fromMs)) AS ms
  FROM (${WORKED}) GROUP BY person_id`;

/** All recorded work of people between two minutes, outside their shifts too. */
export function workedIn(
  db: ReadDb,
  nowMs: number,
  { startMin, endMin }: Pick<Period, 'startMin' | 'endMin'>,
): readonly { readonly personId: PersonId; readonly ms: number }[] {
  return allRows(db, WORKED_BY, { nowMs, fromMs: startMin * 60_000, toMs: endMin * 60_000 });
}

const KEPT = `SELECT p.value ->> 0 AS i, h.place, sum(h.attended_min) AS attendedMin, sum(h.cure_min) AS cureMin,
    sum(h.waiting_min) AS waitingMin, sum(h.blocked_min) AS blockedMin, sum(h.idle_min) AS idleMin, sum(h.worked_ms) AS workedMs
  FROM json_each(:pieces) p CROSS JOIN kept_hours h ON h.day BETWEEN p.value ->> 1 AND p.value ->> 2
  GROUP BY p.key, h.place`;
type KeptHours = Omit<UtilizationParts, 'availableMin'> & {
  readonly i: number;
  readonly place: string;
  readonly workedMs: number;
};

/** From what is kept of days that hold. */
export function keptHours(db: ReadDb, cuts: readonly Cut[]): readonly KeptHours[] {
  return allRows<KeptHours>(db, KEPT, { pieces: asPieces(cuts) });
}
