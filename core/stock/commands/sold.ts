import type { WriteCtx } from '../../context.ts';
import type { ItemId, JobId } from '../../shared/ids.ts';
import { postOut } from './post.ts';

/**
 * Takes out what was handed over to a customer beside the work of a job, at the moving average. More than the book has
 * is saved all the same and opens a count: the things are gone.
 */
export function takeSold(
  ctx: WriteCtx,
  jobId: JobId,
  sold: readonly { readonly itemId: ItemId; readonly amount: number }[],
): void {
  for (const { itemId, amount } of sold) postOut(ctx, itemId, amount, { reason: 'draw', jobId });
}
