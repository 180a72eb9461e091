import type { JobId } from '#core/shared/ids.ts';
import { NEVER } from './calendar.ts';
import { type Board, isOpenStage, type JobPlan, type JobSpec, type Piece, type StageSpec } from './model.ts';

/** A piece of work that is not done, with whose it is. */
export type Row = {
  readonly job: JobSpec;
  readonly plan: JobPlan;
  readonly piece: Piece;
  readonly stage: StageSpec;
  /** Its place among the pieces of the plan. */
  readonly order: number;
};

/** Cars planned to be begun this long after the targets are done may still get in their way. */
const AFTER_MIN = 1440;

/** The work that targets may have to wait for, in planned order: theirs, and what is planned before that is over. */
export function nearbyWork(board: Board, targets: ReadonlySet<JobId>): readonly Row[] {
  const own = [...targets].flatMap((id) => openPieces(board, board.plans.get(id), NEVER));
  const until = Math.max(...own.map((r) => r.piece.dwellEndMin)) + AFTER_MIN;
  const others = [...board.plans.values()].flatMap((plan) =>
    targets.has(plan.jobId) ? [] : openPieces(board, plan, until),
  );
  return [...own, ...others].sort(
    (a, b) => a.piece.startMin - b.piece.startMin || a.piece.endMin - b.piece.endMin,
  );
}

/** Pieces that are planned to begin before a minute, of stages that are not done. */
function openPieces(board: Board, plan: JobPlan | undefined, untilMin: number): readonly Row[] {
  const job = plan && board.jobs.get(plan.jobId);
  if (!plan || !job || job.start.kind === 'over') return [];
  return plan.pieces.flatMap((piece, order): readonly Row[] => {
    if (piece.startMin >= untilMin) return [];
    const stage = job.stages.find((s) => s.id === piece.stageId);
    return stage && isOpenStage(stage) ? [{ job, plan, piece, stage, order }] : [];
  });
}
