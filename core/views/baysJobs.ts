import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { BayId, JobId, PersonId, StageId } from '../shared/ids.ts';
import type { EpochMin, EpochMs, Ppm } from '../shared/units.ts';
import type { LateWeight } from '../shared/views/bookings.ts';
import type { BayKind, JobState, Skill, StageKind, StageState } from '../shared/vocabulary.ts';

/** Rows that the board is made of: jobs, their stages with time worked, stays and placements. */
export type JobRow = {
  readonly id: JobId;
  readonly number: number;
  readonly who: string;
  readonly vehicle: string;
  readonly state: JobState;
  readonly dropOffMin: EpochMin | null;
  readonly pickUpMin: EpochMin | null;
  readonly promisePpm: Ppm | null;
  readonly bold: number;
  readonly lateWeight: LateWeight;
  readonly arrivedMs: EpochMs | null;
  readonly jobSigma: number | null;
  readonly goneMin: EpochMin | null;
};
export type StageRow = {
  readonly id: StageId;
  readonly jobId: JobId;
  readonly kind: StageKind;
  readonly state: StageState;
  readonly p50Min: number;
  readonly mu: number;
  readonly sigma: number;
  readonly dwellMin: number;
  readonly bayKinds: string;
  readonly skill: Skill;
  readonly crew: number;
  readonly splittable: number;
  /** Worked at normal pace, by the crew that was planned; of what nobody attends: since it began. */
  readonly workedMs: number;
};
export type StayRow = {
  readonly jobId: JobId;
  readonly bayId: BayId;
  readonly arriveMin: EpochMin;
  readonly leaveMin: EpochMin;
};
export type PlacementRow = {
  readonly jobId: JobId;
  readonly stageId: StageId;
  readonly bayId: BayId;
  readonly personId: PersonId | null;
  readonly startMin: EpochMin;
  readonly endMin: EpochMin;
  readonly dwellEndMin: EpochMin;
};

/** The plus keeps SQLite from reading every job ever collected: the few by their places come first. */
const WHICH = `j.state IN ('booked','here','inWork','ready') OR j.id = :jobId
  OR (+j.state = 'collected' AND j.id IN (SELECT job_id FROM stay WHERE leave_min > :fromMin AND arrive_min < :toMin))`;
type Range = { readonly jobId: JobId | null; readonly fromMin: number; readonly toMin: number };
/** Their ids as JSON, so that what belongs to jobs is found without asking again which they are. */
const OF_JOBS = 'job_id IN (SELECT value FROM json_each(:ids))';

export function jobRows(db: ReadDb, range: Range): readonly JobRow[] {
  return allRows<JobRow>(
    db,
    `SELECT j.id, j.number, c.name AS who, v.make_model AS vehicle, j.state, j.drop_off_min AS dropOffMin,
       j.pick_up_min AS pickUpMin, j.promise_ppm AS promisePpm, j.bold,
       j.late_weight AS lateWeight, j.arrived_ms AS arrivedMs,
       (SELECT e.job_sigma FROM estimate e WHERE e.job_id = j.id ORDER BY e.version DESC LIMIT 1) AS jobSigma,
       iif(j.state = 'collected', j.collected_ms / 60000, NULL) AS goneMin
     FROM job j JOIN customer c ON c.id = j.customer_id JOIN vehicle v ON v.id = j.vehicle_id
     WHERE ${WHICH} ORDER BY j.number`,
    range,
  );
}

/** Two of a crew of two work one minute in a minute; whoever works at half the pace does half a minute in it. */
const WORKED = `CASE WHEN s.crew = 0 THEN iif(s.state = 'inWork', max(0, :now - s.started_ms), 0) ELSE coalesce((
    SELECT sum(max(0, coalesce(w.end_ms, :now) - w.start_ms) * coalesce(t.speed_ppm, 1000000)) / 1000000.0 / s.crew
    FROM stage_work w LEFT JOIN technician t ON t.person_id = w.person_id WHERE w.stage_id = s.id), 0) END`;

/** What belongs to jobs: their stages with the time worked until `now`, stays and placements. */
export function partsOfJobs(
  db: ReadDb,
  jobs: readonly Pick<JobRow, 'id'>[],
  now: number,
): {
  readonly stages: readonly StageRow[];
  readonly stays: readonly StayRow[];
  readonly placements: readonly PlacementRow[];
} {
  const ids = JSON.stringify(jobs.map((j) => j.id));
  return {
    stages: stageRows(db, ids, now),
    stays: stayRows(db, ids),
    placements: placementRows(db, ids),
  };
}

function stageRows(db: ReadDb, ids: string, now: number): readonly StageRow[] {
  return allRows<StageRow>(
    db,
    `SELECT s.id, s.job_id AS jobId, s.kind, s.state, s.p50_min AS p50Min, s.mu, s.sigma, s.dwell_min AS dwellMin,
       s.bay_kinds AS bayKinds, s.skill, s.crew, s.splittable,
       ${WORKED} AS workedMs
     FROM job_stage s WHERE s.${OF_JOBS} ORDER BY s.job_id, s.seq`,
    { ids, now },
  );
}

function stayRows(db: ReadDb, ids: string): readonly StayRow[] {
  return allRows<StayRow>(
    db,
    `SELECT y.job_id AS jobId, y.bay_id AS bayId, y.arrive_min AS arriveMin, y.leave_min AS leaveMin
     FROM stay y WHERE y.${OF_JOBS} ORDER BY y.job_id, y.arrive_min`,
    { ids },
  );
}

function placementRows(db: ReadDb, ids: string): readonly PlacementRow[] {
  return allRows<PlacementRow>(
    db,
    `SELECT p.job_id AS jobId, p.stage_id AS stageId, p.bay_id AS bayId, p.person_id AS personId,
       p.start_min AS startMin, p.end_min AS endMin, p.dwell_end_min AS dwellEndMin
     FROM placement p WHERE p.${OF_JOBS} ORDER BY p.job_id, p.start_min, p.id`,
    { ids },
  );
}

export function stageKinds(row: StageRow): readonly BayKind[] {
  return JSON.parse(row.bayKinds) as readonly BayKind[];
}
