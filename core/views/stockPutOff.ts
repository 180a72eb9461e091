import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { ItemId } from '../shared/ids.ts';
import type { LocalDay } from '../shared/units.ts';
import type { PutOffView, SuggestionView } from '../shared/views/stock.ts';

type Row = Omit<PutOffView, 'itemName'>;
const LATER = `SELECT l.item_id AS itemId, l.until_day AS untilDay, p.name AS person
  FROM order_later l JOIN person p ON p.id = l.person_id WHERE l.until_day > :today`;

/** Suggestions of today, and those of them that somebody said "not today" to, with who and until when. */
export function withoutPutOff(
  db: ReadDb,
  today: LocalDay,
  found: readonly SuggestionView[],
): { readonly asked: readonly SuggestionView[]; readonly putOff: readonly PutOffView[] } {
  const later = new Map<ItemId, Row>(allRows<Row>(db, LATER, { today }).map((r) => [r.itemId, r] as const));
  return {
    asked: found.filter((line) => !later.has(line.itemId)),
    putOff: found.flatMap(({ itemId, itemName }) => {
      const row = later.get(itemId);
      return row ? [{ ...row, itemName }] : [];
    }),
  };
}
