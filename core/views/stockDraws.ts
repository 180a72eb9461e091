import type { ReadCtx } from '../context.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { refuse } from '../shared/errors.ts';
import type { ItemId, JobId, StageId } from '../shared/ids.ts';
import { MATERIAL_UNITS } from '../shared/materialUnits.ts';
import type { EpochMs, Minor } from '../shared/units.ts';
import type { DrawEvidence, JobMaterialCost, ProposedDraw } from '../shared/views/stockItem.ts';
import type { BaseUnit, Material } from '../shared/vocabulary.ts';
import { type LearnedDraw, learnDraw } from '../stock/rules/drawLearning.ts';
import { pickItem, proposedAmount } from '../stock/rules/draws.ts';
import { DEFAULT_USES, wearMinor } from '../stock/rules/pads.ts';
import { type DrawnStage, drawnStage, pastDraws } from './stockDrawHistory.ts';
import { type ItemRow, itemRows } from './stockOutlook.ts';

type Planned = { readonly material: Material; readonly amount: number };
const PLANNED = `SELECT material, amount FROM job_material WHERE stage_id = :stageId AND amount > 0 ORDER BY rowid`;

/**
 * What a stage will have used: its plan times what stages of its kind really drew, by who works and on what paint, and
 * the item each would come from. Amounts are for the person in the bay to correct.
 * @throws NOT_FOUND when there is no such stage
 */
export function proposeDraws(db: ReadDb, stageId: StageId, nowMs: EpochMs): readonly ProposedDraw[] {
  const stage = drawnStage(db, stageId, nowMs) ?? refuse('NOT_FOUND', { what: 'stage', id: stageId });
  const items = itemRows(db, false);
  return allRows<Planned>(db, PLANNED, { stageId }).map(({ material, amount }) => {
    const unit: BaseUnit = MATERIAL_UNITS[material];
    const learned = learnDraw(pastDraws(db, stage, material, nowMs), stage.technician, stage.condition);
    const proposed = proposedAmount(amount, learned.factor, unit === 'piece');
    const item = itemFor(items, material, proposed);
    return {
      material,
      unit,
      itemId: item?.id ?? null,
      itemName: item?.name ?? '',
      planned: amount,
      proposed,
      factor: learned.factor,
      learned: evidenceOf(learned, stage),
      onHand: item?.onHand ?? 0,
      reusable: item?.reusable === 1,
    };
  });
}

function evidenceOf(learned: LearnedDraw, stage: DrawnStage): readonly DrawEvidence[] {
  const all: readonly DrawEvidence[] = [
    { what: 'stage', of: '', ...learned.stage },
    { what: 'technician', of: stage.person, ...learned.technician },
    { what: 'condition', of: stage.condition, ...learned.condition },
  ];
  return all.filter((e) => e.n > 0);
}

function itemFor(items: readonly ItemRow[], material: Material, amount: number): ItemRow | null {
  const candidates = items.filter((i) => i.material === material);
  const picked = pickItem(
    candidates.map((i) => ({ itemId: i.id, preference: i.preference, onHand: i.onHand })),
    amount,
  );
  return candidates.find((i) => i.id === picked?.itemId) ?? null;
}

type UsedRow = {
  readonly itemId: ItemId;
  readonly itemName: string;
  readonly unit: BaseUnit;
  readonly amount: number;
  readonly valueMinor: Minor;
};
const USED = `SELECT m.item_id AS itemId, i.name AS itemName, i.base_unit AS unit, -sum(m.qty) AS amount,
  -sum(m.value_minor) AS valueMinor FROM stock_movement m JOIN stock_item i ON i.id = m.item_id
  WHERE m.job_id = :jobId AND m.reason IN ('draw', 'waste') GROUP BY m.item_id ORDER BY i.name COLLATE NOCASE`;
const WORN = `SELECT b.item_id AS itemId, i.name AS itemName, i.base_unit AS unit, sum(e.pieces) AS amount,
  i.uses_per_life AS life, ifnull(l.last_cost_minor, 0) AS costMinor, ifnull(l.last_cost_qty, 0) AS costQty
  FROM pad_event e JOIN pad_batch b ON b.id = e.batch_id JOIN stock_item i ON i.id = b.item_id
  LEFT JOIN stock_level l ON l.item_id = b.item_id
  WHERE e.job_id = :jobId AND e.used = 1 GROUP BY b.item_id ORDER BY i.name COLLATE NOCASE`;

/** What a job used, from the ledger, plus the share of their life that its pads and towels lost. */
export function jobMaterialCost(db: ReadDb, jobId: JobId): JobMaterialCost {
  const used = allRows<UsedRow>(db, USED, { jobId }).map((r) => ({ ...r, kind: 'used' as const }));
  const worn = allRows<
    Omit<UsedRow, 'valueMinor'> & {
      readonly life: number | null;
      readonly costMinor: number;
      readonly costQty: number;
    }
  >(db, WORN, { jobId }).map(({ life, costMinor, costQty, ...r }) => ({
    ...r,
    valueMinor: (costQty > 0 ? wearMinor(costMinor / costQty, life ?? DEFAULT_USES, r.amount) : 0) as Minor,
    kind: 'worn' as const,
  }));
  const lines = [...used, ...worn];
  return { jobId, lines, totalMinor: lines.reduce((sum, l) => sum + l.valueMinor, 0) as Minor };
}

/** The book of one item at this moment, for the person who stands at the shelf. */
export function latestMovementId(ctx: ReadCtx, itemId: ItemId): number {
  const row = oneRow<{ id: number }>(
    ctx.db,
    'SELECT ifnull(max(id), 0) AS id FROM stock_movement WHERE item_id = :itemId',
    { itemId },
  );
  return row?.id ?? 0;
}
