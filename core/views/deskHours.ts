import { type Calendar, openBetween } from '../bays/rules/calendar.ts';
import { daysBetween, shiftHours } from '../bays/rules/hours.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { EpochMs, LocalDay } from '../shared/units.ts';
import type { DeskHours } from '../shared/views/desk.ts';
import { baysSetup } from './baysSetup.ts';

type Day = { readonly fromMs: EpochMs; readonly toMs: EpochMs; readonly nowMs: EpochMs };
type Planned = { readonly personId: string; readonly startMin: number; readonly endMin: number };

/** Work of jobs that are still to be done or were done; a car that did not come holds nobody. */
const PLANNED = `SELECT p.person_id AS personId, p.start_min AS startMin, p.end_min AS endMin
  FROM person w CROSS JOIN placement p ON p.person_id = w.id JOIN job j ON j.id = p.job_id
    JOIN job_stage s ON s.id = p.stage_id
  WHERE p.start_min < :toMin AND p.end_min > :fromMin
    AND s.state <> 'dropped' AND j.state NOT IN ('cancelled', 'noShow')`;
const WORKED = `SELECT coalesce(sum(min(coalesce(end_ms, :nowMs), :toMs) - max(start_ms, :fromMs)), 0) AS n
  FROM stage_work WHERE start_ms < min(:toMs, :nowMs)
    AND ((end_ms > :fromMs AND end_ms > start_ms) OR (end_ms IS NULL AND :nowMs > :fromMs))`;

/**
 * Technicians' hours of a day in minutes: on shift less absences and closed days, planned within those shifts, worked.
 * A stage that is planned over night takes nobody's night.
 */
export function deskHours(db: ReadDb, localDay: LocalDay, zone: string, day: Day): DeskHours {
  const shifts = shiftsOf(db, localDay, zone);
  const span = { fromMin: Math.floor(day.fromMs / 60_000), toMin: Math.floor(day.toMs / 60_000) };
  const sum = (minutes: readonly number[]): number => minutes.reduce((a, b) => a + b, 0);
  const planned = allRows<Planned>(db, PLANNED, span).map(({ personId, startMin, endMin }) => {
    const shift = shifts.get(personId);
    return shift ? openBetween(shift, Math.max(startMin, span.fromMin), Math.min(endMin, span.toMin)) : 0;
  });
  return {
    shiftMin: sum([...shifts.values()].map((shift) => openBetween(shift, span.fromMin, span.toMin))),
    plannedMin: sum(planned),
    workedMin: Math.max(0, Math.round((oneRow<{ n: number }>(db, WORKED, day)?.n ?? 0) / 60_000)),
  };
}

/** Everybody's shifts of one day, by the clock of that day. */
function shiftsOf(db: ReadDb, day: LocalDay, zone: string): ReadonlyMap<string, Calendar> {
  const setup = baysSetup(db, day);
  const days = daysBetween(day, day, zone);
  return new Map(setup.technicians.map((t) => [t.personId, shiftHours(t, days, zone, setup)]));
}
