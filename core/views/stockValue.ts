import type { ReadCtx } from '../context.ts';
import { oneRow } from '../db/prepared.ts';
import { addLocalDays, instantOf } from '../shared/time.ts';
import type { LocalDay, Minor } from '../shared/units.ts';
import { shopOf } from './shop.ts';

const VALUE = 'SELECT ifnull(sum(value_minor), 0) AS valueMinor FROM stock_movement WHERE at_ms < :untilMs';

/** What all stock was worth at the end of a day of the shop, at the moving average, from the ledger. */
export function stockValueAt(ctx: ReadCtx, day: LocalDay): { readonly valueMinor: Minor } {
  const untilMs = instantOf(addLocalDays(day, 1), 0, shopOf(ctx.db).zone);
  return oneRow<{ valueMinor: Minor }>(ctx.db, VALUE, { untilMs }) ?? { valueMinor: 0 as Minor };
}
