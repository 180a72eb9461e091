import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { ItemId } from '../shared/ids.ts';

type Used = ReadonlyMap<ItemId, number>;
type Kept = {
  readonly midnight: number;
  readonly history: number;
  readonly use: ReadonlyMap<ItemId, Float64Array>;
  /** Days that are over, by when they began: what was drawn on them is read once. */
  readonly days: Map<number, Used>;
  lastId: number;
};

/**
 * Draws of one day as two texts, item and amount of each line in the same order: a day is a stretch of the index, one
 * row a day costs a fraction of one row for each line, and adding up outside half of sorting by item in here.
 */
const USE = `SELECT json_group_array(item_id) AS items, json_group_array(-qty) AS amounts FROM stock_movement
  WHERE reason = 'draw' AND at_ms >= :fromMs AND at_ms < :toMs`;
const LATEST = 'SELECT ifnull(max(id), 0) AS id FROM stock_movement';
const LATE = `SELECT 1 AS found FROM stock_movement
  WHERE id > :lastId AND at_ms < :midnight AND reason = 'draw' LIMIT 1`;
/** What was corrected, with when it was drawn: a slip of the keyboard is no use of its day, whenever it is put right. */
const CORRECTED = `SELECT c.item_id AS itemId, c.at_ms AS atMs, o.at_ms AS drawnMs, -c.qty AS amount
  FROM stock_movement c CROSS JOIN stock_movement o ON o.id = c.corrects_id
  WHERE c.corrects_id IS NOT NULL AND c.at_ms >= :fromMs AND o.at_ms < :midnight`;
const PUT_RIGHT = `SELECT 1 AS found FROM stock_movement c CROSS JOIN stock_movement o ON o.id = c.corrects_id
  WHERE c.id > :lastId AND c.corrects_id IS NOT NULL AND o.at_ms < :midnight LIMIT 1`;
const FIRST = `SELECT i.id AS itemId,
  (SELECT m.at_ms FROM stock_movement m WHERE m.item_id = i.id ORDER BY m.at_ms LIMIT 1) AS atMs
  FROM stock_item i`;

/** Fewest days of history that a usual use is read from: a new item is not judged by its first busy day. */
const MIN_HISTORY = 14;
const DAY_MS = 86_400_000;
const kept = new WeakMap<object, Kept>();

/**
 * What each item was drawn per day over the days before today, oldest first; a younger item has fewer days. What was
 * corrected counts on the day of its draw. The ledger is append-only, so yesterday and before are added up once a day,
 * and again only if a line dated before today came in since, or one that corrects it.
 */
export function drawnPerDay(
  db: ReadDb,
  midnight: number,
  history: number,
): ReadonlyMap<ItemId, Float64Array> {
  const lastId = oneRow<{ id: number }>(db, LATEST)?.id ?? 0;
  const known = kept.get(db.raw);
  const holds = known !== undefined && stillHolds(db, known, lastId);
  if (holds && known.midnight === midnight && known.history === history && !putRight(db, known)) {
    known.lastId = lastId;
    return known.use;
  }
  const days = holds ? known.days : new Map<number, Used>();
  const use = addUp(db, midnight, history, days);
  for (const began of days.keys())
    if (began < midnight - history * DAY_MS || began >= midnight) days.delete(began);
  kept.set(db.raw, { midnight, history, use, days, lastId });
  return use;
}

/** The ledger only grows; a line dated before the days that are known, though, makes them wrong. */
function stillHolds(db: ReadDb, known: Kept, lastId: number): boolean {
  if (lastId <= known.lastId) return lastId === known.lastId;
  return oneRow(db, LATE, { lastId: known.lastId, midnight: known.midnight }) === undefined;
}

/** Whether a draw of the days that are known was corrected since. */
function putRight(db: ReadDb, { lastId, midnight }: Kept): boolean {
  return oneRow(db, PUT_RIGHT, { lastId, midnight }) !== undefined;
}

function addUp(
  db: ReadDb,
  midnight: number,
  history: number,
  known: Map<number, Used>,
): ReadonlyMap<ItemId, Float64Array> {
  const fromMs = midnight - history * DAY_MS;
  const use = new Map<ItemId, Float64Array>();
  const skipped = new Map<ItemId, number>();
  for (const row of allRows<{ itemId: ItemId; atMs: number | null }>(db, FIRST)) {
    const since = Math.max(0, Math.floor(((row.atMs ?? midnight) - fromMs) / DAY_MS));
    const skip = Math.min(since, history - Math.min(history, MIN_HISTORY));
    skipped.set(row.itemId, skip);
    use.set(row.itemId, new Float64Array(history - skip));
  }
  for (let day = 0; day < history; day += 1) {
    const from = fromMs + day * DAY_MS;
    const used = known.get(from) ?? drawnOn(db, from);
    known.set(from, used);
    for (const [itemId, amount] of used) {
      const at = day - (skipped.get(itemId) ?? 0);
      const days = use.get(itemId);
      if (days && at >= 0) days[at] = amount;
    }
  }
  correctIn(db, use, fromMs, midnight);
  for (const days of use.values())
    for (let at = 0; at < days.length; at += 1) days[at] = Math.max(0, days[at] ?? 0);
  return use;
}

/** Takes corrections out of the days they were written on and into those of their draws, `use` ending at `midnight`. */
function correctIn(
  db: ReadDb,
  use: ReadonlyMap<ItemId, Float64Array>,
  fromMs: number,
  midnight: number,
): void {
  type Row = {
    readonly itemId: ItemId;
    readonly atMs: number;
    readonly drawnMs: number;
    readonly amount: number;
  };
  for (const { itemId, atMs, drawnMs, amount } of allRows<Row>(db, CORRECTED, { fromMs, midnight })) {
    const days = use.get(itemId);
    const put = (ms: number, more: number): void => {
      const at = (days?.length ?? 0) - Math.ceil((midnight - ms) / DAY_MS);
      if (days && ms < midnight && at >= 0) days[at] = (days[at] ?? 0) + more;
    };
    put(atMs, -amount);
    put(drawnMs, amount);
  }
}

function drawnOn(db: ReadDb, fromMs: number): Used {
  const row = oneRow<{ items: string; amounts: string }>(db, USE, { fromMs, toMs: fromMs + DAY_MS });
  const amounts = JSON.parse(row?.amounts ?? '[]') as readonly number[];
  const used = new Map<ItemId, number>();
  for (const [line, itemId] of (JSON.parse(row?.items ?? '[]') as readonly ItemId[]).entries())
    used.set(itemId, (used.get(itemId) ?? 0) + (amounts[line] ?? 0));
  return used;
}
