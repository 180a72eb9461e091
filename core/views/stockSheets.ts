import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { ItemId } from '../shared/ids.ts';
import type { SheetFile, SheetPlace } from '../shared/views/stockItem.ts';
import type { Material } from '../shared/vocabulary.ts';

const FILE = `SELECT file_name AS name, added_ms AS addedMs FROM data_sheet
  WHERE item_id = :itemId AND removed_ms IS NULL`;

export function sheetFileOf(db: ReadDb, itemId: ItemId): SheetFile | null {
  return oneRow<SheetFile>(db, FILE, { itemId }) ?? null;
}

type Row = Omit<SheetPlace, 'hasFile'> & { readonly material: Material; readonly hasFile: number };
const PLACES = `SELECT i.id AS itemId, i.name AS itemName, i.material, i.hazards, i.sheet AS link,
    d.id IS NOT NULL AS hasFile
  FROM stock_item i LEFT JOIN data_sheet d ON d.item_id = i.id AND d.removed_ms IS NULL
  WHERE i.ended_day IS NULL AND i.material IS NOT NULL AND (d.id IS NOT NULL OR i.sheet <> '' OR i.hazards <> '')
  ORDER BY i.preference, i.name COLLATE NOCASE`;

/** Items that say how they hurt, by what stages ask for: hazards, or a safety data sheet as a link or file. */
export function sheetPlaces(db: ReadDb): ReadonlyMap<Material, readonly SheetPlace[]> {
  const found = new Map<Material, SheetPlace[]>();
  for (const { material, hasFile, ...row } of allRows<Row>(db, PLACES)) {
    const places = found.get(material) ?? [];
    places.push({ ...row, hasFile: hasFile === 1 });
    found.set(material, places);
  }
  return found;
}
