import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { spotFilm } from '../paint/rules/spotFilm.ts';
import type { JobId, VehicleId } from '../shared/ids.ts';
import { DEFAULT_STEPS } from '../shared/machineStep.ts';
import type { EpochMs, FilmTenthUm } from '../shared/units.ts';
import type { PanelId } from '../shared/vocabulary.ts';
import { ownSteps } from './estimateInputs.ts';
import type { TestSpotRow } from './inspection.ts';
import { MACHINE_KINDS } from './machineStages.ts';
import { shopOf } from './shop.ts';

export type TakenRow = {
  readonly jobId: JobId;
  readonly panel: PanelId;
  readonly plannedTenthUm: FilmTenthUm;
  readonly shownTenthUm: FilmTenthUm | null;
  readonly shown: 0 | 1;
  /** How it is known: read before and after, planned, or taken by a test spot, in the one place it was tried. */
  readonly method: 'paired' | 'welch' | 'planned' | 'spot';
  readonly bookedTenthUm: FilmTenthUm;
};

/** Panels with their planned removal: of the option the customer agreed to, else of the newest estimate. `v.id` = job. */
const PLANNED_PANELS = `SELECT coalesce(
  (SELECT o.panels FROM quote q JOIN quote_option o ON o.quote_id = q.id AND o.letter = q.accepted_letter
   WHERE q.job_id = v.id AND q.state = 'accepted'),
  (SELECT e.panels FROM estimate e WHERE e.job_id = v.id ORDER BY e.version DESC LIMIT 1))`;

/**
 * Film booked against each panel of a vehicle, visit by visit. A visit whose machine stages were done but whose
 * removal nobody booked counts with its plan: the budget never fails to shrink. A stage that was stopped half way
 * counts for the panels that were ticked off, or for all of them where nobody ticked any.
 */
const TAKEN = `
WITH visit AS (SELECT id FROM job WHERE vehicle_id = :vehicleId),
booked AS (SELECT r.* FROM panel_removal r JOIN visit v ON v.id = r.job_id),
agreed AS (SELECT v.id AS job_id, (${PLANNED_PANELS}) AS panels FROM visit v),
plan AS (
  SELECT a.job_id, json_extract(p.value, '$.panel') AS panel, json_extract(p.value, '$.removalTenthUm') AS tenth_um
  FROM agreed a, json_each(a.panels) p),
machined AS (
  SELECT s.id, s.job_id, s.panels, s.state, s.started_ms FROM job_stage s JOIN visit v ON v.id = s.job_id
  WHERE s.kind IN (${MACHINE_KINDS})),
worked AS (
  SELECT m.job_id, p.value AS panel FROM machined m, json_each(m.panels) p
  WHERE m.state = 'done' OR (m.state = 'dropped' AND m.started_ms IS NOT NULL
    AND NOT EXISTS (SELECT 1 FROM stage_panel d WHERE d.stage_id = m.id))
  UNION SELECT m.job_id, d.panel FROM machined m JOIN stage_panel d ON d.stage_id = m.id)
SELECT job_id AS jobId, panel, planned_tenth_um AS plannedTenthUm, shown_tenth_um AS shownTenthUm, shown, method,
  booked_tenth_um AS bookedTenthUm FROM booked
UNION ALL
SELECT w.job_id, w.panel, plan.tenth_um, NULL, 0, 'planned', plan.tenth_um
  FROM worked w JOIN plan ON plan.job_id = w.job_id AND plan.panel = w.panel
  WHERE plan.tenth_um > 0
    AND NOT EXISTS (SELECT 1 FROM booked b WHERE b.job_id = w.job_id AND b.panel = w.panel)`;

export function filmTaken(db: ReadDb, vehicleId: VehicleId): readonly TakenRow[] {
  return [...allRows<TakenRow>(db, TAKEN, { vehicleId }), ...spotsTaken(db, vehicleId)];
}

const SPOTS = `SELECT i.job_id AS jobId, s.panel, s.role, s.passes, s.removed_tenth_um AS removedTenthUm
  FROM test_spot s JOIN inspection i ON i.id = s.inspection_id WHERE i.vehicle_id = :vehicleId`;
type SpotRow = Pick<TestSpotRow, 'panel' | 'role' | 'passes' | 'removedTenthUm'> & { readonly jobId: JobId };

/** Film that test spots took. Where several were tried on a panel it may have been in one place: each counts. */
function spotsTaken(db: ReadDb, vehicleId: VehicleId): readonly TakenRow[] {
  const spots = allRows<SpotRow>(db, SPOTS, { vehicleId });
  if (spots.length === 0) return [];
  const own = ownSteps(db);
  const way = shopOf(db).settings.estimate;
  return spots.map(({ jobId, panel, ...spot }): TakenRow => {
    const step = own.find((s) => s.role === spot.role) ?? DEFAULT_STEPS[spot.role];
    const tenthUm = spotFilm(spot, step, way) as FilmTenthUm;
    const known = { shownTenthUm: spot.removedTenthUm, shown: spot.removedTenthUm === null ? 0 : 1 } as const;
    return { jobId, panel, plannedTenthUm: tenthUm, ...known, method: 'spot', bookedTenthUm: tenthUm };
  });
}

type Planned = { readonly panel: PanelId; readonly tenthUm: FilmTenthUm };
const PLANNED = `SELECT json_extract(p.value, '$.panel') AS panel, json_extract(p.value, '$.removalTenthUm') AS tenthUm
  FROM job v, json_each((${PLANNED_PANELS})) p WHERE v.id = :jobId`;

/** What the plan of a job takes off each panel, 0.1 µm: the agreed option's, else the newest estimate's. */
export function plannedRemoval(db: ReadDb, jobId: JobId): ReadonlyMap<PanelId, FilmTenthUm> {
  return new Map(allRows<Planned>(db, PLANNED, { jobId }).map((row) => [row.panel, row.tenthUm]));
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
    AND (i.id IS NOT NULL OR EXISTS (SELECT 1 FROM job_stage s
      WHERE s.job_id = j.id AND (s.state = 'done' OR s.started_ms IS NOT NULL)))
  ORDER BY atMs, j.number`;

/** Visits of a vehicle on which its paint was read or work was begun, also one stopped half way; oldest first. */
export function visitsOf(db: ReadDb, vehicleId: VehicleId): readonly VisitRow[] {
  return allRows<VisitRow>(db, VISITS, { vehicleId });
}
