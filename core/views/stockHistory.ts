import { allRows, bareRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { ItemId } from '../shared/ids.ts';

type Use = ReadonlyMap<ItemId, Float64Array>;
type Kept = { readonly midnight: number; readonly history: number; readonly use: Use; lastId: number };

/**
 * Draws of a while: a stretch of an index that holds all that is asked for. They are added up by item and day here;
 * SQLite would sort them for that, which takes five times as long.
 */
const DRAWN = `SELECT item_id, at_ms, qty FROM stock_movement
  WHERE reason = 'draw' AND at_ms >= :fromMs AND at_ms < :toMs`;
const LATEST = 'SELECT ifnull(max(id), 0) AS id FROM stock_movement';
const LATE = `SELECT 1 AS found FROM stock_movement
  WHERE id > :lastId AND at_ms < :midnight AND reason = 'draw' LIMIT 1`;
const FIRST = `SELECT i.id AS itemId,
  (SELECT m.at_ms FROM stock_movement m WHERE m.item_id = i.id ORDER BY m.at_ms LIMIT 1) AS atMs
  FROM stock_item i`;

/** Fewest days of history that a usual use is read from: a new item is not judged by its first busy day. */
const MIN_HISTORY = 14;
const DAY_MS = 86_400_000;
/** Days read at once: so many rows are soon done with. */
const STRETCH = 30;
const kept = new WeakMap<object, Kept>();

/**
 * What each item was drawn per day over the days before today, oldest first; a younger item has fewer days.
 * The ledger is append-only, so yesterday and before are added up once a day, and again only if a line dated
 * before today came in since.
 */
export function drawnPerDay(db: ReadDb, midnight: number, history: number): Use {
  const lastId = oneRow<{ id: number }>(db, LATEST)?.id ?? 0;
  const known = kept.get(db.raw);
  const holds = known !== undefined && known.history === history && stillHolds(db, known, lastId);
  if (holds && known.midnight === midnight) {
    known.lastId = lastId;
    return known.use;
  }
  const use = emptyDays(db, midnight, history);
  addDrawn(db, use, holds ? carryOver(known, use, midnight) : midnight - history * DAY_MS, midnight);
  kept.set(db.raw, { midnight, history, use, lastId });
  return use;
}

/** The ledger only grows; a line dated before the days that are known, though, makes them wrong. */
function stillHolds(db: ReadDb, known: Kept, lastId: number): boolean {
  if (lastId <= known.lastId) return lastId === known.lastId;
  return oneRow(db, LATE, { lastId: known.lastId, midnight: known.midnight }) === undefined;
}

function emptyDays(db: ReadDb, midnight: number, history: number): Use {
  const fromMs = midnight - history * DAY_MS;
  const use = new Map<ItemId, Float64Array>();
  for (const row of allRows<{ itemId: ItemId; atMs: number | null }>(db, FIRST)) {
    const since = Math.max(0, Math.floor(((row.atMs ?? midnight) - fromMs) / DAY_MS));
    const skip = Math.min(since, history - Math.min(history, MIN_HISTORY));
    use.set(row.itemId, new Float64Array(history - skip));
  }
  return use;
}

/** Puts days that are known where they lie before the new midnight; says from when on there is to be read. */
function carryOver(known: Kept, use: Use, midnight: number): number {
  const on = (midnight - known.midnight) / DAY_MS;
  // an hour was put on or back in between, or the clock was: the days do not begin where they did
  if (!Number.isInteger(on) || on < 0 || on > known.history) return midnight - known.history * DAY_MS;
  for (const [itemId, days] of use) {
    const before = known.use.get(itemId);
    if (!before) continue;
    for (let k = 0; k + on < days.length && k < before.length; k += 1)
      days[days.length - 1 - on - k] = before[before.length - 1 - k] ?? 0;
  }
  return known.midnight;
}

/** Adds what was drawn from one time to midnight; what was taken back on another day leaves no day below nothing. */
function addDrawn(db: ReadDb, use: Use, fromMs: number, midnight: number): void {
  for (let from = fromMs; from < midnight; from += STRETCH * DAY_MS) {
    const toMs = Math.min(midnight, from + STRETCH * DAY_MS);
    const rows = bareRows<readonly [ItemId, number, number]>(db, DRAWN, { fromMs: from, toMs });
    for (const [itemId, atMs, qty] of rows) {
      const days = use.get(itemId);
      const at = days ? days.length - Math.ceil((midnight - atMs) / DAY_MS) : -1;
      if (days && at >= 0) days[at] = (days[at] ?? 0) - qty;
    }
  }
  for (const days of use.values())
    for (let k = 0; k < days.length; k += 1) days[k] = Math.max(0, days[k] ?? 0);
}
