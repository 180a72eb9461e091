import { z } from 'zod';
import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { machineStep } from '../shared/machineStep.ts';
import type { LocalDay } from '../shared/units.ts';
import type { BayKind, Material } from '../shared/vocabulary.ts';

const KINDS = `SELECT DISTINCT kind FROM bay WHERE ended_day IS NULL OR ended_day >= :today`;

/** Kinds of place that the shop has now. */
export function bayKindsOf(db: ReadDb, today: LocalDay): readonly BayKind[] {
  return allRows<{ readonly kind: BayKind }>(db, KINDS, { today }).map((r) => r.kind);
}

type CostRow = { readonly material: Material; readonly perUnit: number };

/**
 * What one base unit of each material costs the shop before tax, minor units: the preferred supplier's pack price
 * over the pack, and where nobody is written down as selling it what the latest goods with a price cost; a reusable
 * piece over the uses of its life. Of several items the one that is taken first.
 */
const COSTS = `
SELECT i.material, coalesce(1.0 * si.price_minor / si.pack_size, 1.0 * l.last_cost_minor / l.last_cost_qty)
  / coalesce(i.uses_per_life, 1) AS perUnit
FROM stock_item i LEFT JOIN supplier_item si ON si.item_id = i.id LEFT JOIN stock_level l ON l.item_id = i.id
WHERE i.material IS NOT NULL AND (i.ended_day IS NULL OR i.ended_day >= :today)
  AND (si.item_id IS NOT NULL OR l.last_cost_qty > 0)
ORDER BY i.preference DESC, si.preferred, si.price_minor DESC`;

export function materialCosts(db: ReadDb, today: LocalDay): ReadonlyMap<Material, number> {
  return new Map(allRows<CostRow>(db, COSTS, { today }).map((r) => [r.material, r.perUnit]));
}

const STEPS = `SELECT role, machine, pad, liquid, pad_diameter_mm AS padDiameterMm, speed_rpm AS speedRpm,
  reference_rpm AS referenceRpm, pressure_n AS pressureN, reference_n AS referenceN,
  tenth_um_per_ks AS tenthUmPerKs, error_per_ks AS errorPerKs, sections_per_pad AS sectionsPerPad, revision FROM machine_step`;

const ownStep = machineStep.extend({ revision: z.int().min(1) });
export type OwnStep = z.output<typeof ownStep>;

/** Machine steps that the shop has set or measured itself. */
export function ownSteps(db: ReadDb): readonly OwnStep[] {
  return allRows<unknown>(db, STEPS).map((row) => ownStep.parse(row));
}
