import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { refuse } from '../shared/errors.ts';
import type { PurchaseOrderId, SupplierId } from '../shared/ids.ts';
import { localDayOf } from '../shared/time.ts';
import type { EpochMs, LocalDay, Minor } from '../shared/units.ts';
import type {
  OpenCountView,
  OrderState,
  PurchaseOrderLineView,
  PurchaseOrderRow,
} from '../shared/views/stock.ts';
import { shopOf } from './shop.ts';

type Head = {
  readonly id: PurchaseOrderId;
  readonly number: number;
  readonly supplierId: SupplierId;
  readonly supplierName: string;
  readonly supplierEmail: string;
  readonly note: string;
  readonly orderedDay: LocalDay;
  readonly dueDay: LocalDay;
  readonly revision: number;
};
type Line = Omit<PurchaseOrderLineView, 'late'> & { readonly orderId: PurchaseOrderId };

const HEADS = `SELECT o.id, o.number, o.supplier_id AS supplierId, s.name AS supplierName,
  s.email AS supplierEmail, o.note, o.ordered_day AS orderedDay, o.due_day AS dueDay, o.revision
  FROM purchase_order o JOIN supplier s ON s.id = o.supplier_id`;
const OPEN = `WHERE EXISTS (SELECT 1 FROM purchase_order_line l
  WHERE l.order_id = o.id AND l.packs > l.received_packs + l.cancelled_packs)`;
const LINES = `SELECT l.id, l.order_id AS orderId, l.item_id AS itemId, i.name AS itemName,
  ifnull(k.code, '') AS supplierCode, l.packs, l.pack_size AS packSize, i.pack_word AS packWord,
  i.base_unit AS unit, l.price_minor AS priceMinor, l.received_packs AS receivedPacks,
  l.cancelled_packs AS cancelledPacks, coalesce(l.due_day, o.due_day) AS dueDay
  FROM purchase_order_line l JOIN stock_item i ON i.id = l.item_id
  JOIN purchase_order o ON o.id = l.order_id
  LEFT JOIN supplier_item k ON k.supplier_id = o.supplier_id AND k.item_id = l.item_id
  WHERE l.order_id IN (SELECT value FROM json_each(:ids)) ORDER BY i.name COLLATE NOCASE, l.id`;

/** Purchase orders, newest first; `open` = only those of which something is still due. */
export function orderRows(
  db: ReadDb,
  now: EpochMs,
  open: boolean,
  limit: number,
): readonly PurchaseOrderRow[] {
  const sql = `${HEADS} ${open ? OPEN : ''} ORDER BY o.number DESC LIMIT :limit`;
  return withLines(db, now, allRows<Head>(db, sql, { limit }));
}

/** @throws NOT_FOUND when there is no such order */
export function orderById(db: ReadDb, now: EpochMs, id: PurchaseOrderId): PurchaseOrderRow {
  const row = withLines(db, now, allRows<Head>(db, `${HEADS} WHERE o.id = :id`, { id }))[0];
  return row ?? refuse('NOT_FOUND', { what: 'purchaseOrder', id });
}

function withLines(db: ReadDb, now: EpochMs, heads: readonly Head[]): readonly PurchaseOrderRow[] {
  const today = localDayOf(now, shopOf(db).zone);
  const ids = JSON.stringify(heads.map((h) => h.id));
  const byOrder = Map.groupBy(allRows<Line>(db, LINES, { ids }), (l) => l.orderId);
  return heads.map((head) => {
    const lines = (byOrder.get(head.id) ?? []).map(({ orderId, ...line }) => ({
      ...line,
      late: isDue(line) && line.dueDay < today,
    }));
    const state = stateOf(lines);
    const open = lines.filter(isDue).map((l) => l.dueDay);
    const dueDay = open.toSorted()[0] ?? head.dueDay;
    const late = lines.some((l) => l.late);
    const totalMinor = lines.reduce(
      (sum, l) => sum + (l.packs - l.cancelledPacks) * l.priceMinor,
      0,
    ) as Minor;
    return { ...head, dueDay, state, late, totalMinor, lines };
  });
}

type Packs = Pick<PurchaseOrderLineView, 'packs' | 'receivedPacks' | 'cancelledPacks'>;
const isDue = (l: Packs): boolean => l.packs > l.receivedPacks + l.cancelledPacks;

function stateOf(lines: readonly PurchaseOrderLineView[]): OrderState {
  const due = lines.some(isDue);
  const came = lines.some((l) => l.receivedPacks > 0);
  if (due) return came ? 'part' : 'ordered';
  return lines.some((l) => l.cancelledPacks > 0) ? 'closed' : 'received';
}

const COUNTS = `SELECT c.id, c.item_id AS itemId, i.name AS itemName, i.base_unit AS unit, i.place, c.why,
  c.opened_ms AS openedMs, ifnull(l.qty, 0) AS book,
  ifnull((SELECT max(m.id) FROM stock_movement m WHERE m.item_id = c.item_id), 0) AS asOfMovementId
  FROM stock_count c JOIN stock_item i ON i.id = c.item_id LEFT JOIN stock_level l ON l.item_id = c.item_id
  WHERE c.closed_ms IS NULL ORDER BY c.why = 'negative' DESC, i.place, i.name COLLATE NOCASE`;

/** Counts still to do: those the book asks for first, then by shelf. */
export function openCounts(db: ReadDb): readonly OpenCountView[] {
  return allRows<OpenCountView>(db, COUNTS);
}
