import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { StageId } from '../shared/ids.ts';
import type { EpochMs } from '../shared/units.ts';
import type { Material, StageKind } from '../shared/vocabulary.ts';
import type { PastDraw } from '../stock/rules/drawLearning.ts';

/** A stage as its draws are learned: who works on it and the paint it meets. */
export type DrawnStage = {
  readonly id: StageId;
  readonly kind: StageKind;
  /** Who worked longest on it, else who is planned for it; '' = nobody. */
  readonly technician: string;
  readonly person: string;
  /** Worst severity found in the paint, else what the job is for. */
  readonly condition: string;
};

/** What stages of the past used is read from so many of the latest. */
const LATEST = 240;

/** Whoever worked longest on the stage `s`; of equals the one whose id comes first. Work that runs counts up to now. */
const BUSIEST = `(SELECT w.person_id FROM stage_work w WHERE w.stage_id = s.id GROUP BY w.person_id
  ORDER BY sum(coalesce(w.end_ms, :nowMs) - w.start_ms) DESC, w.person_id LIMIT 1)`;
/** The paint of the stage's job as the hours learn it. */
const CONDITION = `coalesce((
  SELECT CASE max(CASE f.severity WHEN 'heavy' THEN 3 WHEN 'moderate' THEN 2 ELSE 1 END)
    WHEN 3 THEN 'heavy' WHEN 2 THEN 'moderate' WHEN 1 THEN 'light' END
  FROM inspection i CROSS JOIN finding f ON f.inspection_id = i.id
  WHERE i.job_id = s.job_id AND f.removed_ms IS NULL
    AND f.defect NOT IN ('contamination', 'runs', 'stoneChips', 'clearCoatFailure')), j.purpose)`;
const PLANNED_FOR =
  '(SELECT p.person_id FROM placement p WHERE p.stage_id = s.id AND p.person_id IS NOT NULL LIMIT 1)';

const STAGE = `SELECT s.id, s.kind, coalesce(${BUSIEST}, ${PLANNED_FOR}, '') AS technician, ${CONDITION} AS condition
  FROM job_stage s JOIN job j ON j.id = s.job_id WHERE s.id = :stageId`;
const NAME = 'SELECT name FROM person WHERE id = :id';

export function drawnStage(db: ReadDb, stageId: StageId, nowMs: EpochMs): DrawnStage | undefined {
  const stage = oneRow<Omit<DrawnStage, 'person'>>(db, STAGE, { stageId, nowMs });
  if (!stage) return undefined;
  return { ...stage, person: oneRow<{ name: string }>(db, NAME, { id: stage.technician })?.name ?? '' };
}

/**
 * Stages of the kind that planned the material and wrote down what they used, newest first. What they used: draws from
 * the ledger with their corrections, pieces that went round, and what no item was kept of, unless it was taken back.
 */
const PAST = `WITH past AS (
    SELECT s.id, s.job_id, m.amount AS planned FROM job_stage s
    JOIN job_material m ON m.stage_id = s.id AND m.material = :material
    WHERE s.kind = :kind AND s.state = 'done' AND s.id <> :stageId AND m.amount > 0
      AND (EXISTS (SELECT 1 FROM stock_movement x WHERE x.stage_id = s.id)
        OR EXISTS (SELECT 1 FROM draw_without_item x WHERE x.job_id = s.job_id AND x.stage_id = s.id)
        OR EXISTS (SELECT 1 FROM pad_event x WHERE x.job_id = s.job_id AND x.stage_id = s.id))
    ORDER BY s.done_ms DESC LIMIT ${LATEST})
  SELECT s.planned, coalesce(${BUSIEST}, '') AS technician, ${CONDITION} AS condition,
    ifnull((SELECT -sum(v.qty) FROM stock_movement v JOIN stock_item i ON i.id = v.item_id
      WHERE v.stage_id = s.id AND v.reason = 'draw' AND i.material = :material), 0)
    + ifnull((SELECT sum(e.pieces) FROM pad_event e JOIN pad_batch b ON b.id = e.batch_id
      JOIN stock_item i ON i.id = b.item_id
      WHERE e.job_id = s.job_id AND e.stage_id = s.id AND e.used = 1 AND i.material = :material), 0)
    + ifnull((SELECT sum(d.amount) FROM draw_without_item d LEFT JOIN draw_settled x ON x.draw_id = d.id
      WHERE d.job_id = s.job_id AND d.stage_id = s.id AND d.material = :material AND x.draw_id IS NULL), 0) AS drawn
  FROM past s JOIN job j ON j.id = s.job_id`;

/** What stages of the kind used of a material, for learning. */
export function pastDraws(
  db: ReadDb,
  stage: DrawnStage,
  material: Material,
  nowMs: EpochMs,
): readonly PastDraw[] {
  return allRows<PastDraw>(db, PAST, { material, kind: stage.kind, stageId: stage.id, nowMs });
}
