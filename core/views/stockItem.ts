import type { ReadCtx } from '../context.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { foldText } from '../people/rules/names.ts';
import { refuse } from '../shared/errors.ts';
import type { ItemId } from '../shared/ids.ts';
import type { Minor } from '../shared/units.ts';
import type { ItemHit, OpenCountView } from '../shared/views/stock.ts';
import type { MovementView, StockItemDetail, StockItemPage } from '../shared/views/stockItem.ts';
import type { ReasonView } from '../shared/views/stockSentence.ts';
import { fifoLeft } from '../stock/rules/cost.ts';
import { type FifoLine, fifoOf } from '../stock/rules/fifoLedger.ts';
import { shopOf } from './shop.ts';
import { sellerOf } from './stockBoard.ts';
import { chaseOf } from './stockChase.ts';
import { latestMovementId } from './stockDraws.ts';
import { itemView } from './stockItemRow.ts';
import { judge } from './stockJudge.ts';
import { openCounts, orderRows } from './stockOrders.ts';
import { type ItemRow, itemRow, itemRows, lookForward, type Outlook } from './stockOutlook.ts';
import { reasonOf } from './stockReason.ts';
import { sheetFileOf } from './stockSheets.ts';
import { links, suppliers } from './stockSuppliers.ts';

const BEYOND = 60;
const MOVEMENTS = `SELECT m.id, m.at_ms AS atMs, m.reason, m.qty AS amount, m.value_minor AS valueMinor,
  ifnull(p.name, '') AS person, m.job_id AS jobId, j.number AS jobNumber,
  m.corrects_id AS correctsId, m.note, CASE WHEN m.reason = 'draw' AND m.corrects_id IS NULL
    THEN -m.qty - ifnull((SELECT sum(c.qty) FROM stock_movement c WHERE c.corrects_id = m.id), 0) END AS drawn
  FROM stock_movement m LEFT JOIN person p ON p.id = m.person_id LEFT JOIN job j ON j.id = m.job_id
  WHERE m.item_id = :itemId ORDER BY m.id DESC LIMIT 200`;
const LEDGER = `SELECT id, corrects_id AS correctsId, qty, value_minor AS valueMinor FROM stock_movement WHERE item_id = :itemId ORDER BY id`;

/**
 * One item with its latest 200 movements, its way forward, who sells it, and why it is or is not ordered today.
 * @throws NOT_FOUND when there is no such item
 */
export function stockItemPage(ctx: ReadCtx, itemId: ItemId, horizonDays: number): StockItemPage {
  const item = itemRow(ctx.db, itemId) ?? refuse('NOT_FOUND', { what: 'stockItem', id: itemId });
  const kept = itemRows(ctx.db, false);
  const all = kept.some((i) => i.id === itemId) ? kept : [...kept, item];
  const forward = lookForward(ctx.db, ctx.now, horizonDays + BEYOND, all);
  const of = forward.items.get(itemId) ?? refuse('NOT_FOUND', { what: 'stockItem', id: itemId });
  const sellers = suppliers(ctx.db);
  const sold = links(ctx.db);
  const seller = sellerOf(itemId, sold, sellers);
  const rules = shopOf(ctx.db).settings.stock;
  const judged = seller ? judge(of, forward, seller.supplier, seller.link, rules) : null;
  const countOpen = openCounts(ctx.db).some((c) => c.itemId === itemId);
  const chased =
    item.reusable === 0 && chaseOf(of, forward.today, orderRows(ctx.db, ctx.now, true, 100)) !== null;
  const ledger = allRows<FifoLine>(ctx.db, LEDGER, { itemId });
  return {
    today: forward.today,
    item: detailOf(item),
    row: itemView(of, forward, horizonDays, judged, { countOpen, chased }),
    reason: judged ? reasonOf(of, judged) : NO_SUPPLIER,
    idle: item.reusable === 1 || isIdle(of),
    movements: allRows<MovementView>(ctx.db, MOVEMENTS, { itemId }),
    links: (sold.get(itemId) ?? []).map(({ itemId: _, ...l }) => ({
      ...l,
      preferred: l.preferred === 1,
      supplierName: sellers.find((s) => s.id === l.supplierId)?.name ?? '',
    })),
    latestMovementId: latestMovementId(ctx, itemId),
    fifoValueMinor: fifoLeft(fifoOf(ledger)).valueMinor as Minor,
    sheetFile: sheetFileOf(ctx.db, itemId),
    costing: rules.costing,
  };
}

function isIdle(of: Outlook): boolean {
  return of.usualUse.usedDays === 0 && of.onOrder === 0 && of.booked.every((amount) => amount === 0);
}

const NO_SUPPLIER: ReasonView = { inputs: [], rule: 'stock.rule.noSupplier', source: 'stock.source.reorder' };

/** An item as it is written down. */
export function detailOf(item: ItemRow): StockItemDetail {
  const { onHand: _onHand, valueMinor: _valueMinor, reusable, ...rest } = item;
  return { ...rest, reusable: reusable === 1 };
}

/** The book of one item at this moment; also for a count that nobody asked for. */
export function countSheet(ctx: ReadCtx, itemId: ItemId): OpenCountView {
  const open = openCounts(ctx.db).find((c) => c.itemId === itemId);
  if (open) return open;
  const item = itemRow(ctx.db, itemId) ?? refuse('NOT_FOUND', { what: 'stockItem', id: itemId });
  return {
    id: '',
    itemId,
    itemName: item.name,
    unit: item.unit,
    place: item.place,
    why: 'asked',
    openedMs: ctx.now,
    book: item.onHand,
    asOfMovementId: latestMovementId(ctx, itemId),
  };
}

/** Items still kept whose name has every word of the text at the start of one of its own, or that carry it as barcode. */
export function findItems(
  db: ReadDb,
  input: { readonly text: string; readonly limit: number },
): readonly ItemHit[] {
  const words = foldText(input.text).split(/[\s-]+/u);
  const fits = (item: ItemRow): boolean => {
    const own = foldText(item.name).split(/[\s,-]+/u);
    return item.barcode === input.text || words.every((word) => own.some((part) => part.startsWith(word)));
  };
  return itemRows(db, false)
    .filter(fits)
    .slice(0, input.limit)
    .map(({ id, name, place, unit, onHand }) => ({ id, name, place, unit, onHand }));
}

/** The item that carries a barcode, if it is known. */
export function itemByBarcode(
  ctx: ReadCtx,
  barcode: string,
): { readonly itemId: ItemId; readonly name: string } | null {
  const sql = `SELECT id AS itemId, name FROM stock_item WHERE barcode = :barcode AND barcode <> ''`;
  return oneRow<{ itemId: ItemId; name: string }>(ctx.db, sql, { barcode }) ?? null;
}
