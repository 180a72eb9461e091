import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { ItemId } from '../shared/ids.ts';
import type { EpochMs, LocalDay } from '../shared/units.ts';
import type { ContainerView } from '../shared/views/stockContainers.ts';
import type { BaseUnit } from '../shared/vocabulary.ts';
import { restsNow, throwDay } from '../stock/rules/containers.ts';

type Row = {
  readonly id: string;
  readonly itemId: ItemId;
  readonly unit: BaseUnit;
  readonly holds: number;
  readonly rest: number;
  readonly asOfId: number;
  readonly batch: string;
  readonly openedDay: LocalDay;
  readonly openedLifeDays: number | null;
  readonly readMs: EpochMs;
  readonly how: ContainerView['how'];
};
/** Containers in use with their latest reading; of all items where none is named. */
const OPEN = `SELECT c.id, c.item_id AS itemId, i.base_unit AS unit, c.holds, r.rest, r.as_of_id AS asOfId, c.batch,
    c.opened_day AS openedDay, i.opened_life_days AS openedLifeDays, seen.at_ms AS readMs, seen.how
  FROM stock_container c JOIN stock_item i ON i.id = c.item_id JOIN container_reading r
    ON r.id = (SELECT max(x.id) FROM container_reading x WHERE x.container_id = c.id)
  JOIN container_reading seen
    ON seen.id = (SELECT max(x.id) FROM container_reading x WHERE x.container_id = c.id AND x.how <> 'book')
  WHERE c.closed_ms IS NULL AND (:itemId IS NULL OR c.item_id = :itemId)
  ORDER BY c.opened_day, c.opened_ms, c.id`;
/** What left the item since, and what corrections brought back. */
const DRAWN = `SELECT id, qty FROM stock_movement
  WHERE item_id = :itemId AND id > :fromId AND reason IN ('draw', 'waste') ORDER BY id`;
const WEIGHED = `SELECT r.tare_mg AS tareMg, r.grams_per_litre AS gramsPerLitre FROM container_reading r
  JOIN stock_container c ON c.id = r.container_id
  WHERE c.item_id = :itemId AND r.how = 'weight' ORDER BY r.id DESC LIMIT 1`;

/** Containers in use, the one opened first in front, with what is left in each by now; `null` = of every item. */
export function openContainers(db: ReadDb, itemId: ItemId | null): readonly ContainerView[] {
  const byItem = Map.groupBy(allRows<Row>(db, OPEN, { itemId }), (row) => row.itemId);
  return [...byItem].flatMap(([id, rows]) => withRests(db, id, rows));
}

function withRests(db: ReadDb, itemId: ItemId, rows: readonly Row[]): readonly ContainerView[] {
  const fromId = Math.min(...rows.map((r) => r.asOfId));
  const rests = restsNow(rows, allRows<{ id: number; qty: number }>(db, DRAWN, { itemId, fromId }));
  const weighed = oneRow<Pick<ContainerView, 'tareMg' | 'gramsPerLitre'>>(db, WEIGHED, { itemId });
  return rows.map(({ asOfId: _, openedLifeDays, ...row }) => ({
    ...row,
    rest: rests.get(row.id) ?? 0,
    throwDay: throwDay(row.openedDay, openedLifeDays),
    tareMg: weighed?.tareMg ?? null,
    gramsPerLitre: weighed?.gramsPerLitre ?? null,
  }));
}
