import type { ReadCtx } from '../context.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { ItemId } from '../shared/ids.ts';
import type { Costing } from '../shared/settings/stock.ts';
import { addLocalDays, instantOf } from '../shared/time.ts';
import type { LocalDay, Minor } from '../shared/units.ts';
import type { BaseUnit } from '../shared/vocabulary.ts';
import { fifoLeft, type UnitCost } from '../stock/rules/cost.ts';
import { type FifoLine, fifoOf } from '../stock/rules/fifoLedger.ts';
import { shopOf } from './shop.ts';

const VALUE = 'SELECT ifnull(sum(value_minor), 0) AS valueMinor FROM stock_movement WHERE at_ms < :untilMs';

/** What all stock was worth at the end of a day of the shop, at the moving average, from the ledger. */
export function stockValueAt(ctx: ReadCtx, day: LocalDay): { readonly valueMinor: Minor } {
  const untilMs = instantOf(addLocalDays(day, 1), 0, shopOf(ctx.db).zone);
  return oneRow<{ valueMinor: Minor }>(ctx.db, VALUE, { untilMs }) ?? { valueMinor: 0 as Minor };
}

/** What was left of one item, in base units, and what that is worth. */
export type StockWorth = {
  readonly item: string;
  readonly unit: BaseUnit;
  readonly qty: number;
  readonly valueMinor: Minor;
};
type Line = FifoLine & { readonly itemId: ItemId };

const ITEMS = 'SELECT id, name AS item, base_unit AS unit FROM stock_item ORDER BY name COLLATE NOCASE, id';
const LINES = `SELECT item_id AS itemId, id, corrects_id AS correctsId, qty, value_minor AS valueMinor FROM stock_movement
  WHERE at_ms < :endMs ORDER BY id`;

/**
 * What lay in stock before an instant, item by item, each worth what the shop counts by: the moving average of the
 * ledger, or what is left of its purchases, the oldest used first.
 */
export function stockWorth(db: ReadDb, endMs: number, costing: Costing): StockWorth[] {
  const ledgers = Map.groupBy(allRows<Line>(db, LINES, { endMs }), (line) => line.itemId);
  return allRows<Pick<StockWorth, 'item' | 'unit'> & { readonly id: ItemId }>(db, ITEMS)
    .map(({ id, item, unit }) => ({ item, unit, ...leftOf(ledgers.get(id) ?? [], costing) }))
    .filter((row) => row.qty !== 0 || row.valueMinor !== 0);
}

function leftOf(lines: readonly Line[], costing: Costing): Pick<StockWorth, 'qty' | 'valueMinor'> {
  const { qty, valueMinor } = costing === 'fifo' ? fifoLeft(fifoOf(lines)) : summed(lines);
  return { qty, valueMinor: valueMinor as Minor };
}

function summed(lines: readonly Line[]): UnitCost {
  const sumOf = (what: 'qty' | 'valueMinor'): number => lines.reduce((sum, line) => sum + line[what], 0);
  return { qty: sumOf('qty'), valueMinor: sumOf('valueMinor') };
}
