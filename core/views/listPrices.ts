import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { type ListPriceRow, thingOf } from '../shared/listPrices.ts';
import type { LocalDay } from '../shared/units.ts';

const ROWS = `SELECT id, kind, name, level, panel, price_minor AS priceMinor, tax,
  item_id AS itemId, item_qty AS itemQty, from_day AS fromDay FROM list_price
  ORDER BY kind, name COLLATE NOCASE, level, panel, from_day DESC`;

/** Every dated price of the list, of each thing the latest first. */
export function listPriceRows(db: ReadDb): ListPriceRow[] {
  return allRows<ListPriceRow>(db, ROWS);
}

/** The list as it holds on a day; what is no longer offered is left out. */
export function listPricesOn(db: ReadDb, day: LocalDay): ListPriceRow[] {
  const seen = new Set<string>();
  return listPriceRows(db).filter((row) => {
    if (row.fromDay > day || seen.has(thingOf(row))) return false;
    seen.add(thingOf(row));
    return row.priceMinor !== null;
  });
}
