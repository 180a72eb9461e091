import type { WriteCtx } from '../context.ts';
import { makeAfterSpot } from '../estimate/commands/make.ts';
import { addTestSpot } from '../paint/commands/testSpot.ts';
import type { paintEntries } from '../shared/catalogue/paint.ts';
import type { InputOf } from '../shared/entry.ts';
import { newestEstimate } from '../views/estimates.ts';

/**
 * Records a test spot and makes a new version of the job's estimate from it, in one transaction: of the agreed one,
 * else of the newest. An accepted quote is untouched: it stands until the customer agrees to a new one.
 * @throws NO_INSPECTION, TEST_SPOT_UNCLAYED, PANEL_NOT_ON_BODY, FILM_TOO_THIN, FILM_BELOW_FLOOR
 */
export function recordTestSpot(
  ctx: WriteCtx,
  input: InputOf<(typeof paintEntries)['paint.recordTestSpot']>,
): { readonly estimateId: string | null } {
  addTestSpot(ctx, input);
  if (!newestEstimate(ctx.db, input.jobId)) return { estimateId: null };
  return { estimateId: makeAfterSpot(ctx, { jobId: input.jobId }).estimateId };
}
