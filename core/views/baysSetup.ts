import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { BayId, PersonId } from '../shared/ids.ts';
import type { LocalDay, Ppm } from '../shared/units.ts';
import type {
  AbsenceView,
  BaysSetupView,
  ClosureView,
  DustPairView,
  OpeningHoursView,
  ShiftView,
  StageGapView,
  TechnicianView,
} from '../shared/views/baysSetup.ts';
import type { BayKind, Skill } from '../shared/vocabulary.ts';

type BayRow = BaysSetupView['bays'][number];
type PersonRow = {
  readonly personId: PersonId;
  readonly name: string;
  readonly skills: string;
  readonly speedPpm: Ppm;
  readonly startedDay: LocalDay;
  readonly endedDay: LocalDay | null;
};

/** Before anybody has left: a setup of that day knows everybody who ever worked here. */
export const EVER = '0001-01-01' as LocalDay;

/** Everything the shop has set about its bays, hours and people. Technicians who have left are listed while work is placed with them. */
export function baysSetup(db: ReadDb, today: LocalDay): BaysSetupView {
  return {
    bays: allRows<BayRow & { kind: BayKind; bayId: BayId }>(
      db,
      `SELECT id AS bayId, name, kind, capacity, setup_min AS setupMin, started_day AS startedDay,
         ended_day AS endedDay, revision
       FROM bay ORDER BY kind = 'yard', seq`,
    ),
    hours: allRows<OpeningHoursView>(
      db,
      `SELECT weekday, kind, open_min AS openMin, close_min AS closeMin FROM opening_hours
       ORDER BY kind, weekday, open_min`,
    ),
    technicians: technicians(db, today),
    closures: allRows<ClosureView>(
      db,
      `SELECT id, from_day AS fromDay, to_day AS toDay, bay_id AS bayId, reason FROM closure ORDER BY from_day`,
    ),
    absences: allRows<AbsenceView>(
      db,
      `SELECT id, person_id AS personId, start_min AS startMin, end_min AS endMin, reason FROM absence
       ORDER BY start_min`,
    ),
    gaps: allRows<StageGapView>(
      db,
      'SELECT stage, least_min AS leastMin, most_min AS mostMin FROM stage_gap',
    ),
    dust: allRows<DustPairView>(db, 'SELECT id, bay_a AS bayA, bay_b AS bayB FROM dust_pair ORDER BY rowid'),
  };
}

/** Work that waits for somebody, from the day that is asked about on; that day by UTC, which is near enough. */
const STILL_PLACED = `SELECT 1 FROM placement l JOIN job_stage s ON s.id = l.stage_id JOIN job j ON j.id = l.job_id
  WHERE l.person_id = p.id AND l.end_min > unixepoch(:today) / 60 AND s.state NOT IN ('done', 'dropped')
    AND j.state IN ('booked', 'here', 'inWork')`;

function technicians(db: ReadDb, today: LocalDay): readonly TechnicianView[] {
  const shifts = allRows<ShiftView & { personId: PersonId }>(
    db,
    `SELECT person_id AS personId, weekday, start_min AS startMin, end_min AS endMin FROM shift
     ORDER BY weekday, start_min`,
  );
  return allRows<PersonRow>(
    db,
    `SELECT t.person_id AS personId, p.name, t.skills, t.speed_ppm AS speedPpm,
       p.started_day AS startedDay, p.ended_day AS endedDay
     FROM technician t JOIN person p ON p.id = t.person_id
     WHERE p.ended_day IS NULL OR p.ended_day >= :today OR EXISTS (${STILL_PLACED}) ORDER BY p.name`,
    { today },
  ).map((row) => ({
    ...row,
    skills: JSON.parse(row.skills) as readonly Skill[],
    shifts: shifts
      .filter((s) => s.personId === row.personId)
      .map(({ weekday, startMin, endMin }) => ({ weekday, startMin, endMin })),
  }));
}

/** Counts every change of the plan. */
export function planRevisionOf(db: ReadDb): number {
  return oneRow<{ revision: number }>(db, 'SELECT revision FROM plan_state')?.revision ?? 0;
}
