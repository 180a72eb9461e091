import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId, VehicleId } from '../shared/ids.ts';
import type { EpochMs, FilmTenthUm } from '../shared/units.ts';
import type { PanelId } from '../shared/vocabulary.ts';

export type TakenRow = {
  readonly jobId: JobId;
  readonly panel: PanelId;
  readonly plannedTenthUm: FilmTenthUm;
  readonly shownTenthUm: FilmTenthUm | null;
  readonly shown: 0 | 1;
  readonly method: 'paired' | 'welch' | 'planned';
  readonly bookedTenthUm: FilmTenthUm;
};

/**
 * Film booked against each panel of a vehicle, visit by visit. A visit whose machine stages were done but whose
 * removal nobody booked counts with its newest plan: the budget never fails to shrink.
 */
const TAKEN = `
WITH visit AS (SELECT id FROM job WHERE vehicle_id = :vehicleId),
booked AS (SELECT r.* FROM panel_removal r JOIN visit v ON v.id = r.job_id),
plan AS (
  SELECT e.job_id, json_extract(p.value, '$.panel') AS panel, json_extract(p.value, '$.removalTenthUm') AS tenth_um
  FROM estimate e JOIN visit v ON v.id = e.job_id, json_each(e.panels) p
  WHERE e.version = (SELECT max(version) FROM estimate WHERE job_id = e.job_id)),
worked AS (
  SELECT DISTINCT s.job_id, p.value AS panel FROM job_stage s JOIN visit v ON v.id = s.job_id, json_each(s.panels) p
  WHERE s.kind IN ('cut', 'refine') AND s.state = 'done')
SELECT job_id AS jobId, panel, planned_tenth_um AS plannedTenthUm, shown_tenth_um AS shownTenthUm, shown, method,
  booked_tenth_um AS bookedTenthUm FROM booked
UNION ALL
SELECT w.job_id, w.panel, plan.tenth_um, NULL, 0, 'planned', plan.tenth_um
  FROM worked w JOIN plan ON plan.job_id = w.job_id AND plan.panel = w.panel
  WHERE plan.tenth_um > 0
    AND NOT EXISTS (SELECT 1 FROM booked b WHERE b.job_id = w.job_id AND b.panel = w.panel)`;

export function filmTaken(db: ReadDb, vehicleId: VehicleId): readonly TakenRow[] {
  return allRows<TakenRow>(db, TAKEN, { vehicleId });
}

export type VisitRow = {
  readonly jobId: JobId;
  readonly number: number;
  readonly atMs: EpochMs;
  readonly inspectionId: string | null;
};

const VISITS = `SELECT j.id AS jobId, j.number, coalesce(i.started_ms, j.arrived_ms, j.created_ms) AS atMs,
  i.id AS inspectionId FROM job j LEFT JOIN inspection i ON i.job_id = j.id
  WHERE j.vehicle_id = :vehicleId AND j.state NOT IN ('cancelled', 'noShow')
    AND (i.id IS NOT NULL OR EXISTS (SELECT 1 FROM job_stage s WHERE s.job_id = j.id AND s.state = 'done'))
  ORDER BY atMs, j.number`;

/** Visits of a vehicle on which its paint was read or worked on, oldest first. */
export function visitsOf(db: ReadDb, vehicleId: VehicleId): readonly VisitRow[] {
  return allRows<VisitRow>(db, VISITS, { vehicleId });
}
