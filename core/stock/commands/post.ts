import type { WriteCtx } from '../../context.ts';
import { invariant, refuse } from '../../shared/errors.ts';
import type { ItemId, JobId, StageId } from '../../shared/ids.ts';
import type { Minor } from '../../shared/units.ts';
import type { MovementReason } from '../../shared/views/stock.ts';
import { type Book, EMPTY_BOOK, putIn, takeOut, worthOf } from '../rules/cost.ts';
import { findItem, type ItemRecord } from '../store/items.ts';
import { addLine, levelOf, openCount } from '../store/ledger.ts';

/** What belongs to a movement besides amount and value. */
export type Because = {
  readonly reason: MovementReason;
  readonly jobId?: JobId | null;
  readonly stageId?: StageId | null;
  readonly deliveryId?: string | null;
  readonly correctsId?: number | null;
  readonly note?: string;
};
export type Movement = {
  readonly movementId: number;
  readonly valueMinor: Minor;
  readonly onHand: number;
  readonly countOpened: boolean;
};

/**
 * The item, or a plain stop.
 * @throws NOT_FOUND when there is no such item
 */
export function itemOf(ctx: WriteCtx, itemId: ItemId): ItemRecord {
  return findItem(ctx.db, itemId) ?? refuse('NOT_FOUND', { what: 'stockItem', id: itemId });
}

export function bookOf(ctx: WriteCtx, itemId: ItemId): Book {
  const level = levelOf(ctx.db, itemId);
  if (!level) return EMPTY_BOOK;
  return {
    qty: level.qty,
    valueMinor: level.valueMinor,
    lastCost: { qty: level.lastCostQty, valueMinor: level.lastCostMinor },
  };
}

function line(ctx: WriteCtx, itemId: ItemId, qty: number, valueMinor: number, because: Because): number {
  return addLine(ctx.db, {
    itemId,
    qty,
    valueMinor: valueMinor as Minor,
    reason: because.reason,
    jobId: because.jobId ?? null,
    stageId: because.stageId ?? null,
    deliveryId: because.deliveryId ?? null,
    correctsId: because.correctsId ?? null,
    personId: ctx.actor?.personId ?? null,
    atMs: ctx.now,
    note: because.note ?? '',
  });
}

/** Takes stock out at the moving average. Beyond the book it is saved all the same and opens a count. */
export function postOut(ctx: WriteCtx, itemId: ItemId, qty: number, because: Because): Movement {
  const posted = takeOut(bookOf(ctx, itemId), qty);
  const movementId = line(ctx, itemId, -qty, posted.valueMinor, because);
  ctx.changed(itemId, 'onHand');
  const countOpened =
    posted.book.qty < 0 && openCount(ctx.db, { id: ctx.newId(), itemId, why: 'negative', openedMs: ctx.now });
  return { movementId, valueMinor: posted.valueMinor as Minor, onHand: posted.book.qty, countOpened };
}

/** Puts stock in at a cost; null = at what the book says it is worth. A cost difference gets its own line. */
export function postIn(
  ctx: WriteCtx,
  itemId: ItemId,
  qty: number,
  costMinor: number | null,
  because: Because,
): Movement {
  const book = bookOf(ctx, itemId);
  const cost = costMinor ?? worthOf(book, qty);
  const posted = putIn(book, qty, cost, costMinor !== null);
  const movementId = line(ctx, itemId, qty, posted.valueMinor, because);
  if (posted.recostMinor !== 0)
    line(ctx, itemId, 0, posted.recostMinor, { reason: 'recost', deliveryId: because.deliveryId ?? null });
  ctx.changed(itemId, 'onHand');
  const after = levelOf(ctx.db, itemId);
  invariant(
    after?.qty === posted.book.qty && after.valueMinor === posted.book.valueMinor,
    'level follows ledger',
  );
  return { movementId, valueMinor: posted.valueMinor as Minor, onHand: posted.book.qty, countOpened: false };
}
