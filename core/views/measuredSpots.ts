import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { StepRole } from '../shared/machineStep.ts';

const SPOTS = `SELECT passes, removed_tenth_um AS removedTenthUm FROM test_spot
  WHERE role = :role AND removed_tenth_um IS NOT NULL ORDER BY at_ms DESC LIMIT 200`;

/** Test spots of a step whose film was read before and after. */
export function measuredSpots(
  db: ReadDb,
  role: StepRole,
): readonly { readonly passes: number; readonly removedTenthUm: number }[] {
  return allRows(db, SPOTS, { role });
}
