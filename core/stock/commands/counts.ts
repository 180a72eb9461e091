import type { WriteCtx } from '../../context.ts';
import { refuse } from '../../shared/errors.ts';
import type { ItemId } from '../../shared/ids.ts';
import { countDifference } from '../rules/ledger.ts';
import { isUnlikelyCount } from '../rules/slips.ts';
import { keptItems } from '../store/items.ts';
import { bookAt, closeCount, everCame, latestLine, levelOf, openCount } from '../store/ledger.ts';
import { matchRound } from './pads.ts';
import { itemOf, postIn, postOut } from './post.ts';

/** Opens counts of the items named, or of everything kept; those already open stay as they are. */
export function askCount(
  ctx: WriteCtx,
  input: { readonly itemIds: readonly ItemId[]; readonly all: boolean },
): { readonly opened: number } {
  const ids = input.all ? keptItems(ctx.db).map((i) => i.id) : input.itemIds;
  let opened = 0;
  for (const itemId of ids) {
    itemOf(ctx, itemId);
    const why = input.all ? 'full' : 'asked';
    if (openCount(ctx.db, { id: ctx.newId(), itemId, why, openedMs: ctx.now })) opened += 1;
    ctx.changed(itemId, 'count');
  }
  return { opened };
}

/**
 * Keeps what is on the shelf. The difference is taken against the book at the ledger line that the count stands
 * beside, so draws booked since stay as they are. `since` says how much moved in the meantime.
 * @throws COUNT_AHEAD when that line is not in this item's ledger yet
 * @throws COUNT_UNLIKELY when it is far more than the book has or ever came in and `acceptMore` is not said
 */
export function count(
  ctx: WriteCtx,
  input: {
    readonly itemId: ItemId;
    readonly counted: number;
    readonly asOfMovementId: number;
    readonly acceptMore: boolean;
  },
): { readonly difference: number; readonly onHand: number; readonly since: number } {
  const item = itemOf(ctx, input.itemId);
  if (input.asOfMovementId > latestLine(ctx.db, item.id)) return refuse('COUNT_AHEAD', { item: item.name });
  const bookThen = bookAt(ctx.db, item.id, input.asOfMovementId);
  const counted = { ...item, onHand: bookThen, everCame: everCame(ctx.db, item.id) };
  if (!input.acceptMore && isUnlikelyCount(input.counted, counted))
    return refuse('COUNT_UNLIKELY', { item: item.name });
  const before = levelOf(ctx.db, item.id)?.qty ?? 0;
  const difference = countDifference(input.counted, bookThen);
  const because = { reason: 'count', note: '' } as const;
  if (difference > 0) postIn(ctx, item.id, difference, null, because);
  if (difference < 0) postOut(ctx, item.id, -difference, because);
  if (item.reusable && difference !== 0) matchRound(ctx, item, difference);
  closeCount(ctx.db, {
    id: ctx.newId(),
    itemId: item.id,
    asOfId: input.asOfMovementId,
    bookQty: bookThen,
    countedQty: input.counted,
    closedMs: ctx.now,
    personId: ctx.actor?.personId ?? null,
  });
  ctx.changed(item.id, 'count');
  return { difference, onHand: before + difference, since: before - bookThen };
}
