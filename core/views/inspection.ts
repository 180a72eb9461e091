import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { ConsentWay } from '../shared/consent.ts';
import type { InspectionId, JobId, VehicleId } from '../shared/ids.ts';
import type { StepRole } from '../shared/machineStep.ts';
import type { EpochMs, FilmTenthUm } from '../shared/units.ts';
import type { Felt, FoundView, ReadingPhase } from '../shared/views/paint.ts';
import type {
  BodyStyle,
  Defect,
  JobState,
  PaintHardness,
  PanelId,
  Severity,
  StageKind,
  StageState,
  Substrate,
} from '../shared/vocabulary.ts';
import { MACHINE_KINDS } from './machineStages.ts';

/** A job with the vehicle that its paint work rests on. */
export type PaintJob = {
  readonly jobId: JobId;
  readonly number: number;
  readonly state: JobState;
  readonly purpose: string;
  readonly vehicleId: VehicleId;
  readonly body: BodyStyle;
  readonly lengthMm: number | null;
  readonly widthMm: number | null;
  readonly heightMm: number | null;
  readonly hardness: PaintHardness;
  readonly year: number | null;
  readonly ceilingMinor: number | null;
  readonly ceilingMin: number | null;
};

const JOB = `SELECT j.id AS jobId, j.number, j.state, j.purpose, v.id AS vehicleId, v.body, v.length_mm AS lengthMm,
  v.width_mm AS widthMm, v.height_mm AS heightMm, v.hardness, v.year, j.ceiling_minor AS ceilingMinor,
  j.ceiling_min AS ceilingMin
  FROM job j JOIN vehicle v ON v.id = j.vehicle_id WHERE j.id = :jobId`;

export function paintJob(db: ReadDb, jobId: JobId): PaintJob | undefined {
  return oneRow<PaintJob>(db, JOB, { jobId });
}

/** What a screen of a job's paint is headed with. */
export type JobTitle = Pick<PaintJob, 'number' | 'body'> & {
  readonly customer: string;
  readonly makeModel: string;
};
const TITLE = `SELECT j.number, v.body, v.make_model AS makeModel, c.name AS customer FROM job j
  JOIN vehicle v ON v.id = j.vehicle_id JOIN customer c ON c.id = j.customer_id WHERE j.id = :jobId`;

export function jobTitle(db: ReadDb, jobId: JobId): JobTitle | undefined {
  return oneRow<JobTitle>(db, TITLE, { jobId });
}

const VEHICLE = `SELECT id AS vehicleId, body, year FROM vehicle WHERE id = :id`;

/** The vehicle whose film history is asked for. */
export function paintVehicle(
  db: ReadDb,
  id: VehicleId,
): { readonly vehicleId: VehicleId; readonly body: BodyStyle; readonly year: number | null } | undefined {
  return oneRow(db, VEHICLE, { id });
}

export type InspectionRow = {
  readonly id: InspectionId;
  readonly jobId: JobId;
  readonly vehicleId: VehicleId;
  readonly startedMs: EpochMs;
  readonly by: string;
  readonly revision: number;
};

const INSPECTION = `SELECT i.id, i.job_id AS jobId, i.vehicle_id AS vehicleId, i.started_ms AS startedMs,
  coalesce(p.name, '') AS by, i.revision FROM inspection i LEFT JOIN person p ON p.id = i.person_id
  WHERE i.job_id = :jobId`;

export function inspectionRow(db: ReadDb, jobId: JobId): InspectionRow | undefined {
  return oneRow<InspectionRow>(db, INSPECTION, { jobId });
}

export type PanelStateRow = {
  readonly panel: PanelId;
  readonly substrate: Substrate;
  readonly felt: Felt;
  readonly overridePerson: string;
  readonly overrideReason: string;
};
export type FindingRow = {
  readonly id: string;
  readonly panel: PanelId;
  readonly defect: Defect;
  readonly severity: Severity;
  readonly lowTenthUm: FilmTenthUm;
  readonly highTenthUm: FilmTenthUm;
  readonly note: string;
};
export type ReadingRow = {
  readonly id: number;
  readonly panel: PanelId;
  readonly phase: ReadingPhase;
  readonly tenthUm: FilmTenthUm;
  readonly point: string | null;
  readonly x: number | null;
  readonly y: number | null;
  /** 1 = read after work, and a machine has been on the panel again since. */
  readonly overtaken: 0 | 1;
};
export type TestSpotRow = {
  readonly id: string;
  readonly panel: PanelId;
  readonly role: StepRole;
  readonly passes: number;
  readonly sections: number;
  readonly actualS: number;
  readonly removedTenthUm: FilmTenthUm | null;
  readonly atMs: EpochMs;
};

export type ConsentRow = {
  readonly panel: PanelId;
  readonly name: string;
  readonly way: ConsentWay;
  readonly upToTenthUm: FilmTenthUm;
  readonly atMs: EpochMs;
};

/** What was found, without where. */
export function foundView(f: {
  readonly defect: Defect;
  readonly severity: Severity;
  readonly lowTenthUm: number;
  readonly highTenthUm: number;
}): FoundView {
  const { defect, severity } = f;
  const depth = { lowTenthUm: f.lowTenthUm as FilmTenthUm, highTenthUm: f.highTenthUm as FilmTenthUm };
  return { defect, severity, depth };
}

/** All that was noted on one inspection. */
export type InspectionRows = {
  readonly states: readonly PanelStateRow[];
  readonly findings: readonly FindingRow[];
  readonly consents: readonly ConsentRow[];
  readonly readings: readonly ReadingRow[];
  readonly spots: readonly TestSpotRow[];
};

const STATES = `SELECT panel, substrate, felt, override_person AS overridePerson, override_reason AS overrideReason
  FROM panel_state WHERE inspection_id = :id`;
const FINDINGS = `SELECT id, panel, defect, severity, low_tenth_um AS lowTenthUm, high_tenth_um AS highTenthUm, note
  FROM finding WHERE inspection_id = :id AND removed_ms IS NULL ORDER BY at_ms, id`;
const CONSENTS = `SELECT panel, name, way, up_to_tenth_um AS upToTenthUm, at_ms AS atMs FROM sanding_consent
  WHERE inspection_id = :id AND removed_ms IS NULL`;
/** Machine work on a panel that was begun after a reading of it, but for a panel that was ticked off by then. */
const WORKED_SINCE = `SELECT 1 FROM inspection i JOIN job_stage s ON s.job_id = i.job_id
    JOIN stage_work w ON w.stage_id = s.id JOIN json_each(s.panels) p
  WHERE i.id = r.inspection_id AND s.kind IN (${MACHINE_KINDS}) AND p.value = r.panel AND w.start_ms > r.at_ms
    AND NOT EXISTS (SELECT 1 FROM stage_panel d
      WHERE d.stage_id = s.id AND d.panel = r.panel AND d.done_ms <= r.at_ms)`;
const READINGS = `SELECT id, panel, phase, tenth_um AS tenthUm, point, x, y,
    phase = 'after' AND EXISTS (${WORKED_SINCE}) AS overtaken
  FROM film_reading r WHERE inspection_id = :id AND removed_ms IS NULL ORDER BY id`;
const SPOTS = `SELECT id, panel, role, passes, sections, actual_s AS actualS, removed_tenth_um AS removedTenthUm,
  at_ms AS atMs FROM test_spot WHERE inspection_id = :id ORDER BY at_ms, id`;

export function inspectionRows(db: ReadDb, id: InspectionId): InspectionRows {
  return {
    states: allRows<PanelStateRow>(db, STATES, { id }),
    findings: allRows<FindingRow>(db, FINDINGS, { id }),
    consents: allRows<ConsentRow>(db, CONSENTS, { id }),
    readings: allRows<ReadingRow>(db, READINGS, { id }),
    spots: allRows<TestSpotRow>(db, SPOTS, { id }),
  };
}

/** How many readings before work were taken on an inspection after an instant. */
export function readingsSince(db: ReadDb, id: InspectionId, sinceMs: EpochMs): number {
  const sql = `SELECT count(*) AS n FROM film_reading WHERE inspection_id = :id AND phase = 'before'
    AND removed_ms IS NULL AND at_ms > :sinceMs`;
  return oneRow<{ readonly n: number }>(db, sql, { id, sinceMs })?.n ?? 0;
}

export type StageDoneRow = {
  readonly kind: StageKind;
  readonly panels: string;
  readonly panelsDone: string;
  readonly state: StageState;
};

const STAGES = `SELECT s.kind, s.panels, s.state,
  (SELECT json_group_array(d.panel) FROM stage_panel d WHERE d.stage_id = s.id) AS panelsDone
  FROM job_stage s WHERE s.job_id = :jobId ORDER BY s.seq`;

/** True once the stages of a job are what the customer agreed to. */
export function isAgreed(db: ReadDb, jobId: JobId): boolean {
  const sql = "SELECT 1 AS yes FROM job WHERE id = :jobId AND plan_basis = 'agreed'";
  return oneRow(db, sql, { jobId }) !== undefined;
}

/** Stages of a job with their state, their panels and those of them already done (JSON). */
export function stagesOf(db: ReadDb, jobId: JobId): readonly StageDoneRow[] {
  return allRows<StageDoneRow>(db, STAGES, { jobId });
}
