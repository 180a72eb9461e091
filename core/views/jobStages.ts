import { attendedMs } from '../bookings/rules/workTime.ts';
import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId, PersonId, StageId } from '../shared/ids.ts';
import { MATERIAL_UNITS } from '../shared/materialUnits.ts';
import type { EpochMs, Ppm } from '../shared/units.ts';
import type { StageMaterialView, StageNoteView, StageView, WorkView } from '../shared/views/bookings.ts';
import type { PanelId } from '../shared/vocabulary.ts';

type StageRow = Omit<
  StageView,
  'panels' | 'bayKinds' | 'panelsDone' | 'work' | 'notes' | 'materials' | 'attendedMs' | 'place'
> & { readonly panels: string; readonly bayKinds: string };
type WorkRow = {
  readonly id: number;
  readonly stageId: StageId;
  readonly personId: PersonId;
  readonly name: string;
  readonly startMs: EpochMs;
  readonly endMs: EpochMs | null;
  readonly corrected: number;
};

const STAGES = `SELECT s.id, s.seq, s.kind, s.state, s.panels, s.estimated_min AS estimatedMin, s.p20_min AS p20Min,
    s.p50_min AS p50Min, s.p80_min AS p80Min, s.p95_min AS p95Min, s.dwell_min AS dwellMin, s.bay_kinds AS bayKinds,
    s.skill, s.crew, s.note, s.started_ms AS startedMs, s.done_ms AS doneMs, h.share_ppm AS sharePpm, s.revision
  FROM job_stage s LEFT JOIN stage_share h ON h.stage_id = s.id
  WHERE s.job_id = :jobId AND (s.state <> 'dropped' OR s.started_ms IS NOT NULL OR h.share_ppm IS NOT NULL
    OR EXISTS (SELECT 1 FROM stage_note n WHERE n.stage_id = s.id))
  ORDER BY s.seq`;
const WORK = `SELECT w.id, w.stage_id AS stageId, w.person_id AS personId, p.name, w.start_ms AS startMs,
    w.end_ms AS endMs, w.corrected
  FROM job_stage s JOIN stage_work w ON w.stage_id = s.id JOIN person p ON p.id = w.person_id
  WHERE s.job_id = :jobId ORDER BY w.start_ms, w.id`;
const NOTES = `SELECT n.stage_id AS stageId, n.at_ms AS atMs, coalesce(p.name, '') AS by, n.note AS text
  FROM job_stage s JOIN stage_note n ON n.stage_id = s.id LEFT JOIN person p ON p.id = n.person_id
  WHERE s.job_id = :jobId ORDER BY n.at_ms, n.id`;
const PANELS_DONE = `SELECT d.stage_id AS stageId, d.panel FROM job_stage s JOIN stage_panel d ON d.stage_id = s.id
  WHERE s.job_id = :jobId ORDER BY d.done_ms`;
const MATERIALS = `SELECT stageId, material, sum(planned) AS planned, sum(used) AS used, sum(noItem) AS noItem FROM (
    SELECT s.id AS stageId, m.material, m.amount AS planned, NULL AS used, 0 AS noItem
    FROM job_stage s JOIN job_material m ON m.stage_id = s.id WHERE s.job_id = :jobId
    UNION ALL
    SELECT v.stage_id, i.material, 0, -v.qty, 0 FROM stock_movement v JOIN stock_item i ON i.id = v.item_id
    WHERE v.job_id = :jobId AND v.reason = 'draw' AND v.stage_id IS NOT NULL AND i.material IS NOT NULL
    UNION ALL
    SELECT e.stage_id, i.material, 0, e.pieces, 0 FROM pad_event e JOIN pad_batch b ON b.id = e.batch_id
    JOIN stock_item i ON i.id = b.item_id
    WHERE e.job_id = :jobId AND e.used = 1 AND e.stage_id IS NOT NULL AND i.material IS NOT NULL
    UNION ALL
    SELECT stage_id, material, 0, amount, amount FROM draw_without_item
    WHERE job_id = :jobId AND id NOT IN (SELECT draw_id FROM draw_settled))
  GROUP BY stageId, material ORDER BY stageId, planned DESC, material`;

/**
 * Stages of a job in the order of work, with what was worked, noted, ticked off and used on each.
 * Stages dropped before anybody touched or noted them are left out. `nowMs` ends running stretches for the sums.
 */
export function stageViewsOf(db: ReadDb, jobId: JobId, nowMs: EpochMs): StageView[] {
  const work = grouped(allRows<WorkRow>(db, WORK, { jobId }));
  const notes = grouped(allRows<StageNoteView & { stageId: StageId }>(db, NOTES, { jobId }));
  const ticks = grouped(allRows<{ stageId: StageId; panel: PanelId }>(db, PANELS_DONE, { jobId }));
  const used = grouped(
    allRows<Omit<StageMaterialView, 'unit'> & { stageId: StageId }>(db, MATERIALS, { jobId }),
  );
  return allRows<StageRow>(db, STAGES, { jobId }).map((row) => {
    const stretches = work.get(row.id) ?? [];
    return {
      ...row,
      panels: JSON.parse(row.panels),
      bayKinds: JSON.parse(row.bayKinds),
      sharePpm: row.sharePpm as Ppm | null,
      panelsDone: (ticks.get(row.id) ?? []).map((t) => t.panel),
      attendedMs: attendedMs(
        stretches.map(({ stageId, ...w }) => ({ ...w, stageId })),
        nowMs,
      ),
      work: stretches.map(asWork),
      notes: (notes.get(row.id) ?? []).map(({ stageId: _s, ...note }) => note),
      materials: (used.get(row.id) ?? []).map(({ stageId: _s, ...m }) => ({
        ...m,
        unit: MATERIAL_UNITS[m.material],
      })),
      place: null,
    };
  });
}

function asWork(row: WorkRow): WorkView {
  return {
    id: row.id,
    person: { id: row.personId, name: row.name },
    startMs: row.startMs,
    endMs: row.endMs,
    corrected: row.corrected === 1,
  };
}

function grouped<R extends { readonly stageId: StageId }>(rows: readonly R[]): ReadonlyMap<StageId, R[]> {
  const by = new Map<StageId, R[]>();
  for (const row of rows) {
    const list = by.get(row.stageId);
    if (list) list.push(row);
    else by.set(row.stageId, [row]);
  }
  return by;
}
