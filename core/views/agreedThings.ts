import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { ItemId, JobId } from '../shared/ids.ts';
import { thingOf } from '../shared/listPrices.ts';
import type { LocalDay } from '../shared/units.ts';
import { listPriceRows } from './listPrices.ts';

/** Stock that the things of an agreed quote come from: base units of an item. */
export type AgreedStock = { readonly itemId: ItemId; readonly amount: number };

const QUOTED = `SELECT l.value ->> 'quoted' AS priceId, l.value ->> 'quantity' AS pieces
  FROM quote q JOIN quote_option o ON o.quote_id = q.id AND o.letter = q.accepted_letter, json_each(o.bill, '$.lines') l
  WHERE q.job_id = :jobId AND q.state = 'accepted' AND l.value ->> 'quoted' IS NOT NULL`;

/**
 * What the things that a job's customer agreed to take out of stock on a day, each item once. From which item one comes
 * is as the price list says on that day, whatever it said when it was quoted.
 */
export function agreedStock(db: ReadDb, jobId: JobId, day: LocalDay): readonly AgreedStock[] {
  const quoted = allRows<{ priceId: string; pieces: number }>(db, QUOTED, { jobId });
  if (quoted.length === 0) return [];
  const list = listPriceRows(db);
  const amounts = new Map<ItemId, number>();
  for (const { priceId, pieces } of quoted) {
    const priced = list.find((row) => row.id === priceId);
    const holds = list.find((row) => priced && thingOf(row) === thingOf(priced) && row.fromDay <= day);
    if (holds?.itemId) amounts.set(holds.itemId, (amounts.get(holds.itemId) ?? 0) + pieces * holds.itemQty);
  }
  return [...amounts].map(([itemId, amount]) => ({ itemId, amount }));
}
