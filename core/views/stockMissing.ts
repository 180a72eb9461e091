import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { MATERIAL_UNITS } from '../shared/materialUnits.ts';
import { addLocalDays } from '../shared/time.ts';
import type { MissingMaterial } from '../shared/views/stock.ts';
import type { Material } from '../shared/vocabulary.ts';
import { type Forward, type ItemRow, takers } from './stockOutlook.ts';

const USED = `SELECT material, sum(amount) AS used FROM draw_without_item
  WHERE id NOT IN (SELECT draw_id FROM draw_settled) GROUP BY material`;

/**
 * Materials that booked stages ask for within `days`, or that finished ones used, while no item of them is kept:
 * nothing looks forward for them and nothing is ordered. What is needed first comes first. Of a material that is kept
 * by now, what was used before stays until somebody settles it.
 */
export function missingMaterials(
  db: ReadDb,
  forward: Forward,
  items: readonly ItemRow[],
  days: number,
): readonly MissingMaterial[] {
  const kept = takers(items);
  const used = new Map(
    allRows<{ material: Material; used: number }>(db, USED).map((r) => [r.material, r.used] as const),
  );
  const needs = Map.groupBy(
    forward.needs.filter((n) => n.day < days),
    (n) => n.material,
  );
  return [...new Set([...needs.keys(), ...used.keys()])]
    .filter((material) => !kept.has(material) || used.has(material))
    .map((material): MissingMaterial => {
      const of = kept.has(material) ? [] : (needs.get(material) ?? []);
      const first = of.reduce((day, n) => Math.min(day, n.day), Number.POSITIVE_INFINITY);
      return {
        material,
        unit: MATERIAL_UNITS[material],
        booked: of.reduce((sum, n) => sum + n.amount, 0),
        jobs: new Set(of.map((n) => n.jobId)).size,
        firstDay: of.length > 0 ? addLocalDays(forward.today, first) : null,
        used: used.get(material) ?? 0,
        kept: kept.has(material),
      };
    })
    .sort((a, b) => ((a.firstDay ?? '9') < (b.firstDay ?? '9') ? -1 : 1));
}
