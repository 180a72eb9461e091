import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { ItemId } from '../shared/ids.ts';

type DayRow = { readonly itemId: ItemId; readonly day: number; readonly used: number };
type Kept = {
  readonly midnight: number;
  readonly history: number;
  readonly use: ReadonlyMap<ItemId, Float64Array>;
  lastId: number;
};

/** Draws per item and day; days are cut at the shop's midnight as it is today. */
const USE = `SELECT item_id AS itemId, CAST((at_ms - :fromMs) / 86400000 AS INTEGER) AS day, -sum(qty) AS used
  FROM stock_movement WHERE reason = 'draw' AND at_ms >= :fromMs AND at_ms < :toMs GROUP BY item_id, day`;
const LATEST = 'SELECT ifnull(max(id), 0) AS id FROM stock_movement';
const LATE = `SELECT 1 AS found FROM stock_movement
  WHERE id > :lastId AND at_ms < :midnight AND reason = 'draw' LIMIT 1`;
const FIRST = `SELECT i.id AS itemId,
  (SELECT m.at_ms FROM stock_movement m WHERE m.item_id = i.id ORDER BY m.at_ms LIMIT 1) AS atMs
  FROM stock_item i`;

/** Fewest days of history that a usual use is read from: a new item is not judged by its first busy day. */
const MIN_HISTORY = 14;
const DAY_MS = 86_400_000;
const kept = new WeakMap<object, Kept>();

/**
 * What each item was drawn per day over the days before today, oldest first; a younger item has fewer days.
 * The ledger is append-only, so yesterday and before are added up once a day, and again only if a line dated
 * before today came in since.
 */
export function drawnPerDay(
  db: ReadDb,
  midnight: number,
  history: number,
): ReadonlyMap<ItemId, Float64Array> {
  const lastId = oneRow<{ id: number }>(db, LATEST)?.id ?? 0;
  const known = kept.get(db.raw);
  if (known && stillHolds(db, known, midnight, history, lastId)) {
    known.lastId = lastId;
    return known.use;
  }
  const use = addUp(db, midnight, history);
  kept.set(db.raw, { midnight, history, use, lastId });
  return use;
}

function stillHolds(db: ReadDb, known: Kept, midnight: number, history: number, lastId: number): boolean {
  if (known.midnight !== midnight || known.history !== history || lastId < known.lastId) return false;
  if (lastId === known.lastId) return true;
  return oneRow(db, LATE, { lastId: known.lastId, midnight }) === undefined;
}

function addUp(db: ReadDb, midnight: number, history: number): ReadonlyMap<ItemId, Float64Array> {
  const fromMs = midnight - history * DAY_MS;
  const use = new Map<ItemId, Float64Array>();
  const skipped = new Map<ItemId, number>();
  for (const row of allRows<{ itemId: ItemId; atMs: number | null }>(db, FIRST)) {
    const since = Math.max(0, Math.floor(((row.atMs ?? midnight) - fromMs) / DAY_MS));
    const skip = Math.min(since, history - Math.min(history, MIN_HISTORY));
    skipped.set(row.itemId, skip);
    use.set(row.itemId, new Float64Array(history - skip));
  }
  for (const row of allRows<DayRow>(db, USE, { fromMs, toMs: midnight })) {
    const days = use.get(row.itemId);
    const at = row.day - (skipped.get(row.itemId) ?? 0);
    if (days && at >= 0) days[at] = Math.max(0, row.used);
  }
  return use;
}
