import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId, StageId } from '../shared/ids.ts';
import { MATERIAL_UNITS } from '../shared/materialUnits.ts';
import type { UseWithoutItem } from '../shared/views/stock.ts';
import type { Material } from '../shared/vocabulary.ts';

const OPEN = `SELECT d.id, d.job_id AS jobId, j.number AS jobNumber, s.kind AS stage, d.amount, d.at_ms AS atMs,
    coalesce(p.name, '') AS person
  FROM draw_without_item d JOIN job j ON j.id = d.job_id JOIN job_stage s ON s.id = d.stage_id
  LEFT JOIN person p ON p.id = d.person_id
  WHERE d.material = :material AND d.id NOT IN (SELECT draw_id FROM draw_settled) ORDER BY d.at_ms DESC, d.id DESC`;

/** What stages used of a material while no item was kept, and nobody has settled since; newest first. */
export function usesWithoutItem(
  db: ReadDb,
  input: { readonly material: Material },
): readonly UseWithoutItem[] {
  const unit = MATERIAL_UNITS[input.material];
  return allRows<Omit<UseWithoutItem, 'unit'>>(db, OPEN, input).map((row) => ({ ...row, unit }));
}

const ONE = `SELECT d.id, d.job_id AS jobId, d.stage_id AS stageId, d.material, d.amount, x.draw_id IS NOT NULL AS settled
  FROM draw_without_item d LEFT JOIN draw_settled x ON x.draw_id = d.id WHERE d.id = :id`;

export type UseRow = {
  readonly id: number;
  readonly jobId: JobId;
  readonly stageId: StageId;
  readonly material: Material;
  readonly amount: number;
  readonly settled: number;
};

export function useById(db: ReadDb, id: number): UseRow | undefined {
  return oneRow<UseRow>(db, ONE, { id });
}
