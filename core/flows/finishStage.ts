import { noteStage } from '../bookings/commands/stageMarks.ts';
import { finishWork } from '../bookings/commands/stages.ts';
import type { WriteCtx } from '../context.ts';
import type { StageFinished } from '../shared/catalogue/bookings.ts';
import type { SetAside } from '../shared/catalogue/bookingsInputs.ts';
import type { DrawInput } from '../shared/catalogue/stockInputs.ts';
import type { StageId } from '../shared/ids.ts';
import type { DrawnForStage } from '../shared/views/stockItem.ts';
import { drawForStage } from '../stock/commands/draws.ts';

export type FinishStage = {
  readonly stageId: StageId;
  readonly draws: readonly DrawInput[];
  readonly note?: string | undefined;
  readonly setAside?: SetAside | undefined;
};

/**
 * Ends a stage and books what it used: the time, the draws and the pads that went dirty, all or nothing.
 * @throws STAGE_STATE · CURE_RUNS · JOB_STATE · NOT_FOUND
 */
export function finishStage(
  ctx: WriteCtx,
  input: FinishStage,
): StageFinished & { readonly drawn: DrawnForStage } {
  const finished = finishWork(ctx, input);
  const drawn = drawForStage(ctx, { stageId: input.stageId, draws: input.draws });
  if (input.note) noteStage(ctx, { stageId: input.stageId, note: input.note });
  return { ...finished, drawn };
}
