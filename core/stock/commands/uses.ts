import type { WriteCtx } from '../../context.ts';
import { refuse } from '../../shared/errors.ts';
import type { ItemId } from '../../shared/ids.ts';
import { type UseRow, useById } from '../../views/stockUses.ts';
import { settleDraw } from '../store/withoutItem.ts';
import { drawOne } from './draws.ts';
import { itemOf } from './post.ts';

/**
 * Takes from an item, at what it is worth now, what stages used before an item of the material was kept: each use
 * stands in the ledger with its job and stage.
 * @throws NOT_FOUND · USE_SETTLED when one was given or removed already · USE_OTHER_MATERIAL
 */
export function giveUses(
  ctx: WriteCtx,
  input: { readonly useIds: readonly number[]; readonly itemId: ItemId },
): { readonly given: number } {
  const item = itemOf(ctx, input.itemId);
  const uses = openUses(ctx, input.useIds);
  for (const use of uses) {
    if (use.material !== item.material)
      refuse('USE_OTHER_MATERIAL', { item: item.name, material: use.material });
    drawOne(ctx, item, use.amount, { jobId: use.jobId, stageId: use.stageId });
    settle(ctx, use, { itemId: item.id, why: '' });
  }
  return { given: uses.length };
}

/**
 * Takes such uses out of the jobs: they were written down wrongly. The reason stays with them.
 * @throws NOT_FOUND · USE_SETTLED
 */
export function removeUses(
  ctx: WriteCtx,
  input: { readonly useIds: readonly number[]; readonly why: string },
): { readonly removed: number } {
  const uses = openUses(ctx, input.useIds);
  for (const use of uses) settle(ctx, use, { itemId: null, why: input.why });
  return { removed: uses.length };
}

function openUses(ctx: WriteCtx, ids: readonly number[]): readonly UseRow[] {
  return [...new Set(ids)].map((id) => {
    const use = useById(ctx.db, id) ?? refuse('NOT_FOUND', { what: 'use', id: String(id) });
    if (use.settled === 1) refuse('USE_SETTLED', {});
    return use;
  });
}

function settle(
  ctx: WriteCtx,
  use: UseRow,
  how: { readonly itemId: ItemId | null; readonly why: string },
): void {
  settleDraw(ctx.db, { drawId: use.id, ...how, personId: ctx.actor?.personId ?? null, atMs: ctx.now });
  ctx.changed(use.stageId, 'draws');
}
